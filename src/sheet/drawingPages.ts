import { union } from '../drawing/box.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { boxOfPrimitive } from '../scene/labels.ts';
import type { Scene } from '../scene/types.ts';
import { readable } from './clearNames.ts';
import { scenePrimitives } from './drawing.ts';
import { evenStarts, type Span, wholeStarts } from './pieces.ts';
import { LEAST_TYPE_U } from './slips.ts';
import { svgOf } from './svg.ts';

/** Room for a drawing on one page, mm. */
export interface Room {
  readonly w: number;
  readonly h: number;
}

/** A part of the drawing that stands on a page of its own. */
export interface DrawingPage {
  readonly title: string;
  readonly svg: string;
  /** On a page laid on its side. */
  readonly lying: boolean;
  /** What it shows, drawing units. */
  readonly box: Box;
}

/** Smallest type that a person reads in a cab, mm (8 pt). */
const LEAST_TYPE_MM = (8 * 25.4) / 72;
/** So large at most, mm for 1 u: larger shows nothing more. */
const MOST_MM_PER_U = 0.36;
/** Neighbouring pieces show this much twice, so that the eye finds its way, mm. */
const OVERLAP_MM = 12;
const MARGIN_U = 4;

/**
 * The drawing at a size at which all its type is 8 pt or more, on as few pages as that takes, upright or lying.
 * @param items item number of each part, as on the lists
 * @param over laid over the drawing; pieces that none of it touches are left out
 */
export function drawingPages(scene: Scene, items: ReadonlyMap<Id, string>, upright: Room, lying: Room, over: readonly Primitive[] = []): DrawingPage[] {
  const view = viewOf(scene);
  const ways = [laidOut(scene, view, lying, true), laidOut(scene, view, upright, false)];
  const [best] = ways.sort((a, b) => a.columns.length * a.rows.length - b.columns.length * b.rows.length || b.mmPerU - a.mmPerU);
  const { room, columns, rows, mmPerU } = best as Layout;
  const piece = { w: Math.min(view.w, room.w / mmPerU), h: Math.min(view.h, room.h / mmPerU) };
  const shown: { box: Box; inside: Primitive[] }[] = [];
  for (const y of rows) {
    for (const x of columns) {
      const box = { x, y, ...piece };
      const inside = [...scenePrimitives(scene, items, box), ...over].filter((p) => touches(p, box)).map(readable);
      const told = over.length === 0 || over.some((p) => touches(p, box));
      if (told && inside.some((p) => p.t === 'text')) shown.push({ box, inside });
    }
  }
  return shown.map(({ box, inside }, i) => {
    const zones = scene.zones.filter((z) => z.box.x < box.x + box.w - 1 && z.box.x + z.box.w > box.x + 1).map((z) => z.name);
    const title = shown.length === 1 ? 'Drawing' : `Drawing, piece ${i + 1} of ${shown.length}: ${zones.join(', ')}`;
    return {
      title,
      lying: (best as Layout).lying,
      box,
      svg: svgOf(inside, { view: box, title, widthMm: box.w * mmPerU, heightMm: box.h * mmPerU, serial: i + 2, halo: true }),
    };
  });
}

/** What is drawn, with a little air round it, u. */
export function viewOf(scene: Scene): Box {
  const b = scene.bounds;
  return { x: b.x - MARGIN_U, y: b.y - MARGIN_U, w: b.w + 2 * MARGIN_U, h: b.h + 2 * MARGIN_U };
}

interface Layout {
  readonly room: Room;
  readonly lying: boolean;
  /** Left edges of the pieces. */
  readonly columns: readonly number[];
  /** Upper edges of the pieces. */
  readonly rows: readonly number[];
  readonly mmPerU: number;
}

/** Type is made smaller in so many steps, down to the least, when that keeps every part whole. */
const STEPS = 12;

/**
 * As many pages as readable type asks for, and then as large as they allow: no part is cut on every piece that shows it,
 * for which the drawing may be a little smaller, or have one page more.
 */
function laidOut(scene: Scene, view: Box, room: Room, lying: boolean): Layout {
  const least = LEAST_TYPE_MM / LEAST_TYPE_U;
  const pages = (lengthMm: number, roomMm: number): number => (lengthMm <= roomMm ? 1 : Math.ceil((lengthMm - OVERLAP_MM) / (roomMm - OVERLAP_MM)));
  const across = pages(view.w * least, room.w);
  const down = pages(view.h * least, room.h);
  const fills = (length: number, roomMm: number, n: number): number => (n * roomMm - (n - 1) * OVERLAP_MM) / length;
  const largest = (n: number, m: number): number => Math.min(MOST_MM_PER_U, fills(view.w, room.w, n), fills(view.h, room.h, m));
  const wide = { from: view.x, to: view.x + view.w };
  const high = { from: view.y, to: view.y + view.h };
  const bodies = [...scene.parts.values()].map((p) => union([p.box, ...p.labels]));
  const lyingSpans = within(
    bodies.map((b) => ({ from: b.x, to: b.x + b.w })),
    wide,
  );
  const standingSpans = within(
    bodies.map((b) => ({ from: b.y, to: b.y + b.h })),
    high,
  );
  for (const more of [0, 1]) {
    const [n, m] = [across === 1 ? 1 : across + more, down === 1 ? 1 : down + more];
    const most = largest(n, m);
    for (let step = 0; step <= STEPS; step++) {
      const mmPerU = most + ((least - most) * step) / STEPS;
      const overlap = OVERLAP_MM / mmPerU;
      const columns = wholeStarts(wide, Math.min(view.w, room.w / mmPerU), n, overlap, lyingSpans);
      const rows = wholeStarts(high, Math.min(view.h, room.h / mmPerU), m, overlap, standingSpans);
      if (columns && rows) return { room, lying, columns, rows, mmPerU };
    }
  }
  // Something is larger than a page.
  const mmPerU = largest(across, down);
  const columns = evenStarts(wide, Math.min(view.w, room.w / mmPerU), across);
  return { room, lying, columns, rows: evenStarts(high, Math.min(view.h, room.h / mmPerU), down), mmPerU };
}

/** What reaches beyond the drawing can be whole on no piece: as much of it as lies inside. */
function within(spans: readonly Span[], whole: Span): Span[] {
  return spans.map((s) => ({ from: Math.max(s.from, whole.from), to: Math.min(s.to, whole.to) }));
}

function touches(p: Primitive, box: Box): boolean {
  const e = boxOfPrimitive(p);
  const reach = p.t === 'line' ? p.w : 1;
  return e.x - reach < box.x + box.w && e.x + e.w + reach > box.x && e.y - reach < box.y + box.h && e.y + e.h + reach > box.y;
}
