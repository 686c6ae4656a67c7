import { inflate, overlaps } from '../drawing/box.ts';
import { GridIndex } from '../drawing/grid.ts';
import { textWidth } from '../drawing/text.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { boxOfPrimitive } from '../scene/labels.ts';
import { tagSize } from '../scene/tags.ts';
import type { PlacedWire, Scene } from '../scene/types.ts';
import { briefFigureText, figureText, type WireFigures } from './figures.ts';
import { type Mark, markPrimitives } from './marks.ts';

export interface FigureLabel {
  readonly wire: Id;
  readonly text: Primitive & { t: 'text' };
  /** Ground under the text where it lies on the wire. */
  readonly plate: Box | null;
}

const SIZE = 10;
/** Room of a plate around its text, u. */
const PLATE = { x: 3, up: 9.5, h: 13 } as const;

/** One possible place: on the wire (a plate covers it there) or beside it. */
interface Place {
  readonly text: Primitive & { t: 'text' };
  readonly box: Box;
  readonly onWire: boolean;
}

const NONE: ReadonlySet<Id> = new Set();

/**
 * Places for amps and volts: on the wire next to its tag where the straight piece is long enough, else beside it, and
 * only where nothing else stands; a wire without room goes without (it shows its figures when chosen).
 */
export function figureLabels(scene: Scene, figures: ReadonlyMap<Id, WireFigures>, marks: readonly Mark[] = []): readonly FigureLabel[] {
  const taken = new GridIndex<Box>();
  const take = (box: Box): void => taken.add(box, box);
  for (const part of scene.parts.values()) {
    take(inflate(part.box, 2));
    for (const box of part.labels) take(box);
  }
  for (const shape of markPrimitives(marks, scene, NONE)) take(boxOfPrimitive(shape));
  const lines = new GridIndex<Box>();
  for (const wire of scene.wires.values()) {
    for (const piece of piecesOf(wire.points)) lines.add(piece, piece);
    if (wire.tag !== '') take(tagBox(wire));
  }
  const free = (index: GridIndex<Box>, box: Box): boolean => !index.near(box).some((b) => overlaps(inflate(b, 0.5), box));
  const out: FigureLabel[] = [];
  for (const wire of scene.wires.values()) {
    const f = figures.get(wire.id);
    const text = f && wire.owner === 'build' ? briefFigureText(f) : '';
    if (text === '') continue;
    const place = placesFor(wire, text).find((p) => free(taken, p.box) && (p.onWire || free(lines, p.box)));
    if (!place) continue;
    take(place.box);
    out.push(labelAt(wire.id, place));
  }
  return out;
}

/** Label of one wire wherever it is, for the chosen one. */
export function figureLabelOf(wire: PlacedWire, figures: WireFigures): FigureLabel | null {
  const text = figureText(figures);
  const place = text === '' ? undefined : placesFor(wire, text)[0];
  return place ? labelAt(wire.id, place) : null;
}

function labelAt(wire: Id, place: Place): FigureLabel {
  return { wire, text: place.text, plate: place.onWire ? place.box : null };
}

function placesFor(wire: PlacedWire, text: string): Place[] {
  const { x, y } = wire.tagAt;
  const w = textWidth(text, SIZE, true);
  const half = tagSize(wire.tag).w / 2;
  const at = (tx: number, ty: number, anchor: 'start' | 'middle' | 'end', onWire: boolean): Place => {
    const left = anchor === 'middle' ? tx - w / 2 : anchor === 'end' ? tx - w : tx;
    const box = { x: left - PLATE.x, y: ty - PLATE.up, w: w + 2 * PLATE.x, h: PLATE.h };
    return { text: { t: 'text', x: tx, y: ty, text, size: SIZE, ink: 'accent', bold: true, anchor }, box, onWire };
  };
  const piece = pieceUnder(wire.points, x, y);
  const lying = piece.h === 0;
  if (!lying) return [at(x + half + 5, y + 3.5, 'start', false), at(x - half - 5, y + 3.5, 'end', false)];
  const beside = [at(x, y - 11, 'middle', false), at(x, y + 18, 'middle', false)];
  if (piece.y !== y) return beside;
  const right = at(x + half + 4, y + 3.5, 'start', true);
  const left = at(x - half - 4, y + 3.5, 'end', true);
  const onWire = [right, left].filter((p) => p.box.x >= piece.x && p.box.x + p.box.w <= piece.x + piece.w);
  return [...onWire, ...beside];
}

function tagBox(wire: PlacedWire): Box {
  const { w, h } = tagSize(wire.tag);
  return { x: wire.tagAt.x - w / 2, y: wire.tagAt.y - h / 2, w, h };
}

function piecesOf(p: readonly number[]): Box[] {
  const out: Box[] = [];
  for (let i = 0; i + 3 < p.length; i += 2) {
    const [x0, y0, x1, y1] = [p[i] as number, p[i + 1] as number, p[i + 2] as number, p[i + 3] as number];
    out.push({ x: Math.min(x0, x1), y: Math.min(y0, y1), w: Math.abs(x1 - x0), h: Math.abs(y1 - y0) });
  }
  return out;
}

/** The straight piece nearest to a point, as a box without width or without height. */
function pieceUnder(points: readonly number[], x: number, y: number): Box {
  let best: Box = { x, y, w: 0, h: 0 };
  let least = Number.POSITIVE_INFINITY;
  for (const piece of piecesOf(points)) {
    const dx = Math.max(piece.x - x, 0, x - piece.x - piece.w);
    const dy = Math.max(piece.y - y, 0, y - piece.y - piece.h);
    if (dx + dy < least) {
      least = dx + dy;
      best = piece;
    }
  }
  return best;
}
