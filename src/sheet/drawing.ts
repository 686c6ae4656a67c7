import { textWidth } from '../drawing/text.ts';
import type { Box, Ink, Point, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { fittedMark } from '../scene/symbols.ts';
import type { PlacedWire, Scene } from '../scene/types.ts';
import { isCable } from '../scene/wireStyle.ts';
import { itemTexts } from './paperPlaces.ts';
import { LEAST_TYPE_U, paperTag, slip, slipSize } from './slips.ts';

/** Insulation line beyond the core on each side, u: keeps pale colours visible on white paper. */
const CASING_U = 1;
/** Clear paper on each side of a wire that passes over another, u. */
const GAP_U = 3;
const ZONE_SIZE_U = 13;

/**
 * The whole plan in drawing order: zones, wires, joints, parts, tags.
 * @param items item number of each part, as on the lists: `F1`, `K2`
 * @param shown the stretch that is shown, u: names of zones stand where they can be read; default all
 * @param tagOf what stands at a wire; default its number and the letters of its colour
 */
export function scenePrimitives(
  scene: Scene,
  items: ReadonlyMap<Id, string>,
  shown: Box = scene.bounds,
  tagOf: (wire: PlacedWire) => string = paperTag,
): Primitive[] {
  const wires = [...scene.wires.values()];
  const parts = [...scene.parts.values()];
  return [
    ...scene.zones.flatMap((zone) => zonePrimitives(zone, shown)),
    ...scene.runs.flatMap((run): Primitive[] => slip(run.at, `${run.lengthM.toFixed(1)} m`, 'soft')),
    ...wires.flatMap(wirePrimitives),
    ...scene.joints.map((j): Primitive => ({ t: 'circle', x: j.x, y: j.y, r: 3, fill: 'ink' })),
    ...parts.flatMap((part) => part.primitives),
    ...itemTexts(scene, items).values(),
    ...wires.flatMap((wire) => [...slip(wire.tagAt, tagOf(wire), 'ink'), ...(wire.fitted ? [fittedSlip(wire.tagAt, tagOf(wire))] : [])]),
  ];
}

function zonePrimitives({ box, bar, name, maxC }: Scene['zones'][number], shown: Box): Primitive[] {
  const x = Math.max(box.x, shown.x) + 12;
  const room = Math.min(box.x + box.w, shown.x + shown.w) - x;
  // A piece that shows only a strip of a zone leaves its name to the piece that shows more.
  const hasName = room >= textWidth(name, ZONE_SIZE_U, true) || room >= box.w - 12;
  const names: Primitive[] = [
    { t: 'text', x, y: box.y + 24, text: name, size: ZONE_SIZE_U, ink: 'ink', bold: true },
    { t: 'text', x, y: box.y + 40, text: `up to ${maxC} °C`, size: LEAST_TYPE_U, ink: 'soft' },
  ];
  return [
    { t: 'rect', ...box, ink: 'faint', lw: 1 },
    ...(hasName ? names : []),
    { t: 'rect', ...bar, fill: 'soft' },
    { t: 'text', x: bar.x, y: bar.y + bar.h + 14, text: 'chassis', size: LEAST_TYPE_U, ink: 'soft' },
  ];
}

function wirePrimitives(wire: PlacedWire): Primitive[] {
  const gaps = wire.crossings.map((at) => gap(wire, at));
  if (wire.owner === 'vehicle') return [...gaps, line(wire.points, 'vehicle', wire.width)];
  // A cable has one broad sheath with a pale core; a wire its insulation colour inside a black outline.
  if (isCable(wire)) return [...gaps, line(wire.points, wire.ink, wire.width), line(wire.points, 'paper', wire.width * 0.4)];
  const out = [...gaps, line(wire.points, 'ink', wire.width + 2 * CASING_U), line(wire.points, wire.ink, wire.width)];
  return wire.stripe ? [...out, { t: 'line', pts: wire.points, ink: wire.stripe, w: wire.width, dash: [4, 8] }] : out;
}

/** Paper laid over the lower wire, along the upper one. */
function gap(wire: PlacedWire, at: Point): Primitive {
  const lying = liesFlat(wire.points, at);
  const reach = GAP_U + 2;
  return line(lying ? [at.x - reach, at.y, at.x + reach, at.y] : [at.x, at.y - reach, at.x, at.y + reach], 'ground', wire.width + 2 * (CASING_U + GAP_U));
}

function liesFlat(pts: readonly number[], at: Point): boolean {
  for (let i = 0; i + 3 < pts.length; i += 2) {
    const [x0, y0, x1, y1] = [pts[i] as number, pts[i + 1] as number, pts[i + 2] as number, pts[i + 3] as number];
    if (y0 === y1 && y0 === at.y && at.x > Math.min(x0, x1) && at.x < Math.max(x0, x1)) return true;
  }
  return false;
}

/** The filled corner of a slip whose wire is in the vehicle already. */
function fittedSlip(at: Point, text: string): Primitive {
  return fittedMark(at.x - slipSize(text).w / 2 - 2, at.y - LEAST_TYPE_U / 2 - 4, 7);
}

function line(pts: readonly number[], ink: Ink, w: number): Primitive {
  return { t: 'line', pts, ink, w };
}
