import { overlaps } from '../drawing/box.ts';
import { GridIndex } from '../drawing/grid.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { boxOfPrimitive } from '../scene/labels.ts';
import { TagPlacer } from '../scene/tags.ts';
import type { PlacedPart, PlacedWire, Scene } from '../scene/types.ts';
import { LEAST_TYPE_U, paperTag, slipSize } from './slips.ts';

/** Widest body of a part that sits in a wire, u. */
const INLINE_MOST_U = 30;
/** Room for a wire in front of a terminal, to each side, u. */
const TERMINAL_U = 3;

/**
 * Item numbers where they stand on paper: at the lower left of the body, left of a part that stands upright in its wire,
 * or at another corner where something else is written there.
 */
export function itemTexts(scene: Scene, items: ReadonlyMap<Id, string>): ReadonlyMap<Id, Primitive & { t: 'text' }> {
  const taken = new GridIndex<{ readonly box: Box; readonly of: Id }>();
  const take = (box: Box, of: Id): void => taken.add({ box, of }, box);
  for (const part of scene.parts.values()) {
    take(part.box, part.id);
    for (const box of writtenOutside(part)) take(box, '');
    for (const { x, y } of Object.values(part.pads)) take({ x: x - TERMINAL_U, y: y - TERMINAL_U, w: 2 * TERMINAL_U, h: 2 * TERMINAL_U }, '');
  }
  const out = new Map<Id, Primitive & { t: 'text' }>();
  for (const part of scene.parts.values()) {
    const item = items.get(part.id);
    if (item === undefined) continue;
    const places = placesFor(part, item);
    const free = places.find((p) => {
      const box = boxOfPrimitive(p);
      return !taken.near(box).some((t) => t.of !== part.id && overlaps(t.box, box));
    });
    const text = free ?? (places[0] as Primitive & { t: 'text' });
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
  return h > w && w <= INLINE_MOST_U ? [...beside, ...corners] : [...corners];
}

/** Boxes of what a part has written outside its body: its label, and the name of a ground below its ring. */
function writtenOutside(part: PlacedPart): Box[] {
  const texts = part.primitives.flatMap((p) => (p.t === 'text' ? [boxOfPrimitive(p)] : []));
  return [...part.labels, ...texts.filter((box) => !overlaps(box, part.box))];
}

/** The scene with the numbers of its wires where their slips, wider on paper than on screen, cover nothing that is written. */
export function placedForPaper(scene: Scene, items: ReadonlyMap<Id, string>): Scene {
  const numbers = [...itemTexts(scene, items).values()].map(boxOfPrimitive);
  const tags = new TagPlacer([...[...scene.parts.values()].flatMap((p) => [p.box, ...writtenOutside(p)]), ...numbers]);
  const wires = new Map<Id, PlacedWire>();
  for (const [id, wire] of scene.wires) {
    const text = paperTag(wire);
    wires.set(id, text === '' ? wire : { ...wire, tagAt: tags.place(wire.points, text, slipSize(text)) });
  }
  return { ...scene, wires };
}
