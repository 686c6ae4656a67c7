import { boxOf, inflate, overlaps } from '../drawing/box.ts';
import { GridIndex } from '../drawing/grid.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { boxOfPrimitive } from '../scene/labels.ts';
import { TagPlacer } from '../scene/tags.ts';
import type { PlacedPart, PlacedWire, Scene } from '../scene/types.ts';
import { clearName } from './clearNames.ts';
import { LEAST_TYPE_U, paperTag, slipSize } from './slips.ts';

/** Widest body of a part that sits in a wire, u. */
const INLINE_MOST_U = 30;
/** Room for a wire in front of a terminal, to each side, u. */
const TERMINAL_U = 3;

/**
 * Item numbers where they stand on paper: at the lower left of the body, left of a part that stands upright in its wire,
 * or at another corner where something else is written, or a wire runs, there.
 */
export function itemTexts(scene: Scene, items: ReadonlyMap<Id, string>): ReadonlyMap<Id, Primitive & { t: 'text' }> {
  const taken = new GridIndex<{ readonly box: Box; readonly of: Id }>();
  const take = (box: Box, of: Id): void => taken.add({ box, of }, box);
  for (const part of scene.parts.values()) {
    take(part.box, part.id);
    for (const box of writtenOutside(part)) take(box, '');
    for (const { x, y } of Object.values(part.pads)) take({ x: x - TERMINAL_U, y: y - TERMINAL_U, w: 2 * TERMINAL_U, h: 2 * TERMINAL_U }, '');
  }
  const lines = new GridIndex<Box>();
  for (const { points, width } of scene.wires.values())
    for (let i = 0; i + 3 < points.length; i += 2) {
      const [x0, y0, x1, y1] = [points[i] as number, points[i + 1] as number, points[i + 2] as number, points[i + 3] as number];
      const piece = inflate(boxOf({ x: x0, y: y0 }, { x: x1, y: y1 }), width / 2);
      lines.add(piece, piece);
    }
  const isUnwritten = (box: Box, id: Id): boolean => !taken.near(box).some((t) => t.of !== id && overlaps(t.box, box));
  const isOffWires = (box: Box): boolean => !lines.near(box).some((piece) => overlaps(piece, box));
  const out = new Map<Id, Primitive & { t: 'text' }>();
  for (const part of scene.parts.values()) {
    const item = items.get(part.id);
    if (item === undefined) continue;
    const places = placesFor(part, item);
    const unwritten = places.filter((p) => isUnwritten(boxOfPrimitive(p), part.id));
    const text = unwritten.find((p) => isOffWires(boxOfPrimitive(p))) ?? unwritten[0] ?? (places[0] as Primitive & { t: 'text' });
    take(boxOfPrimitive(text), '');
    out.set(part.id, text);
  }
  return out;
}

function placesFor(part: PlacedPart, item: string): (Primitive & { t: 'text' })[] {
  const { x, y, w, h } = part.box;
  const common = { t: 'text', text: item, size: LEAST_TYPE_U, ink: 'ink', bold: true } as const;
  const below = y + h + 10;
  const above = y - 3;
  const middle = y + h / 2 + 3;
  const corners = [
    { ...common, x, y: below },
    { ...common, x: x + w, y: below, anchor: 'end' },
    { ...common, x, y: above },
    { ...common, x: x + w, y: above, anchor: 'end' },
  ] as const;
  const beside = [
    { ...common, x: x - 2, y: middle, anchor: 'end' },
    { ...common, x: x + w + 3, y: middle },
  ] as const;
  const atLabel = part.labels.flatMap((label) => {
    const foot = label.y + label.h - 4;
    return [{ ...common, x: label.x - 4, y: foot, anchor: 'end' } as const, { ...common, x: label.x + label.w + 4, y: foot }];
  });
  const round = [{ ...common, x: x - 6, y: above, anchor: 'end' } as const, { ...common, x: x + w + 6, y: above }, { ...common, x: x + w + 6, y: below }];
  return h > w && w <= INLINE_MOST_U ? [...beside, ...corners, ...atLabel, ...round] : [...corners, ...atLabel, ...round];
}

/** Boxes of what a part has written outside its body: its label, and the name of a ground below its ring. */
function writtenOutside(part: PlacedPart): Box[] {
  const texts = part.primitives.flatMap((p) => (p.t === 'text' ? [boxOfPrimitive(p)] : []));
  return [...part.labels, ...texts.filter((box) => !overlaps(box, part.box))];
}

/** The scene with names and the numbers of its wires where type and slips, larger on paper than on screen, cover nothing that is written. */
export function placedForPaper(onScreen: Scene, items: ReadonlyMap<Id, string>): Scene {
  const scene = { ...onScreen, parts: new Map([...onScreen.parts].map(([id, part]) => [id, clearName(part)])) };
  const numbers = [...itemTexts(scene, items).values()].map(boxOfPrimitive);
  const tags = new TagPlacer([...[...scene.parts.values()].flatMap((p) => [p.box, ...writtenOutside(p)]), ...numbers]);
  const wires = new Map<Id, PlacedWire>();
  for (const [id, wire] of scene.wires) {
    const text = paperTag(wire);
    wires.set(id, text === '' ? wire : { ...wire, tagAt: tags.place(wire.points, text, slipSize(text)) });
  }
  return { ...scene, wires };
}
