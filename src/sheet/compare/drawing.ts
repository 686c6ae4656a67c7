import { textWidth } from '../../drawing/text.ts';
import type { Point, Primitive } from '../../drawing/types.ts';
import type { Id } from '../../plan/types.ts';
import { DASH, faded, frame, frameOf } from '../../scene/changes.ts';
import type { PlacedPart, PlacedWire, Scene } from '../../scene/types.ts';
import { scenePrimitives } from '../drawing.ts';
import { viewOf } from '../drawingPages.ts';
import { LEAST_TYPE_U, paperTag } from '../slips.ts';
import { svgOf } from '../svg.ts';
import type { Difference } from './types.ts';

/** Signs that stand at what differs: shapes, so that they are read without colour. */
export const SIGNS: Readonly<Record<Difference['where'], string>> = { one: '−', other: '+', both: '≠' };

const BADGE_R = 9;
/** A wire that differs lies on a grey band so much wider than itself, u. */
const BAND_U = 12;

/**
 * One of two wirings as SVG text. What is the same in both stands back in thin grey; what differs is drawn in full, in a
 * frame (solid: only here; dashed: in both, not alike) and with its sign.
 * @param items item number of each part
 * @param side which of the two this is; differences of the other side alone are not in this scene
 */
export function comparedDrawing(
  scene: Scene,
  items: ReadonlyMap<Id, string>,
  differences: readonly Difference[],
  side: 'one' | 'other',
  title: string,
): string {
  const here = differences.filter((d) => d.where === 'both' || d.where === side);
  const marked = (table: Difference['table']) => new Map(here.filter((d) => d.table === table).map((d) => [d.id, d.where]));
  const [parts, wires] = [marked('parts'), marked('wires')];
  const stands = faded(scene, new Map(here.map((d) => [d.id, d.where])));
  const isQuiet = ([id]: readonly [Id, unknown]): boolean => !wires.has(id);
  // What differs is drawn last, over what is the same.
  const quiet: Scene = { ...stands, wires: new Map([...[...stands.wires].filter(isQuiet), ...[...stands.wires].filter((w) => !isQuiet(w))]) };
  const differing = [...scene.wires.values()].filter((w) => wires.has(w.id));
  const drawn = scenePrimitives(quiet, items, scene.bounds, (wire) => (wires.has(wire.id) ? paperTag(wire) : ''));
  const primitives = [
    ...differing.map((w): Primitive => ({ t: 'line', pts: w.points, ink: 'zone-b', w: w.width + BAND_U })),
    ...drawn,
    ...[...scene.parts.values()].flatMap((p) => framed(p, parts.get(p.id))),
    ...differing.flatMap((w) => badge(besideTag(w), SIGNS[wires.get(w.id) ?? 'both'])),
  ];
  return svgOf(primitives, { view: viewOf(scene), title, serial: side === 'one' ? 1 : 2, halo: true });
}

function besideTag(wire: PlacedWire): Point {
  const tag = paperTag(wire);
  return tag === '' ? wire.tagAt : { x: wire.tagAt.x - textWidth(tag, LEAST_TYPE_U) / 2 - BADGE_R - 4, y: wire.tagAt.y };
}

function framed(part: PlacedPart, where: Difference['where'] | undefined): Primitive[] {
  if (where === undefined) return [];
  const box = frameOf(part);
  return [frame(box, where === 'both' ? DASH : undefined), ...badge({ x: box.x + box.w, y: box.y }, SIGNS[where])];
}

function badge(at: Point, sign: string): Primitive[] {
  return [
    { t: 'circle', x: at.x, y: at.y, r: BADGE_R, fill: 'ink', ink: 'paper', lw: 1.5 },
    { t: 'text', x: at.x, y: at.y + 5.2, text: sign, size: 15, ink: 'paper', bold: true, anchor: 'middle' },
  ];
}
