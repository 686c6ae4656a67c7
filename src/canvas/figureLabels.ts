import { inflate, overlaps } from '../drawing/box.ts';
import { GridIndex } from '../drawing/grid.ts';
import { textWidth } from '../drawing/text.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { tagSize } from '../scene/tags.ts';
import type { PlacedWire, Scene } from '../scene/types.ts';
import { figureText, type WireFigures } from './figures.ts';

export interface FigureLabel {
  readonly wire: Id;
  readonly text: Primitive & { t: 'text' };
}

const SIZE = 10;

/**
 * Places for amps and volts beside the wires' tags, where nothing else stands; a wire without room goes without (it
 * shows its figures when chosen).
 */
export function figureLabels(scene: Scene, figures: ReadonlyMap<Id, WireFigures>): readonly FigureLabel[] {
  const taken = new GridIndex<Box>();
  const take = (box: Box): void => taken.add(box, box);
  for (const part of scene.parts.values()) {
    take(inflate(part.box, 2));
    for (const box of part.labels) take(box);
  }
  for (const wire of scene.wires.values()) {
    if (wire.tag === '') continue;
    const { w, h } = tagSize(wire.tag);
    take({ x: wire.tagAt.x - w / 2, y: wire.tagAt.y - h / 2, w, h });
  }
  const out: FigureLabel[] = [];
  for (const wire of scene.wires.values()) {
    const f = figures.get(wire.id);
    const text = f && wire.owner === 'build' ? figureText(f) : '';
    if (text === '') continue;
    for (const place of placesFor(wire, text)) {
      const box = boxOfText(place, text);
      if (taken.near(box).some((b) => overlaps(b, box))) continue;
      take(box);
      out.push({ wire: wire.id, text: place });
      break;
    }
  }
  return out;
}

/** Label of one wire wherever it is, for the chosen one. */
export function figureLabelOf(wire: PlacedWire, figures: WireFigures): FigureLabel | null {
  const text = figureText(figures);
  const place = text === '' ? undefined : placesFor(wire, text)[0];
  return place ? { wire: wire.id, text: place } : null;
}

function placesFor(wire: PlacedWire, text: string): (Primitive & { t: 'text' })[] {
  const { x, y } = wire.tagAt;
  const common = { t: 'text', text, size: SIZE, ink: 'accent', bold: true } as const;
  const half = tagSize(wire.tag).w / 2;
  if (liesAround(wire, x, y))
    return [
      { ...common, x, y: y - 10, anchor: 'middle' },
      { ...common, x, y: y + 17, anchor: 'middle' },
    ];
  return [
    { ...common, x: x + half + 3, y: y + 3.5, anchor: 'start' },
    { ...common, x: x - half - 3, y: y + 3.5, anchor: 'end' },
  ];
}

function boxOfText(p: Primitive & { t: 'text' }, text: string): Box {
  const w = textWidth(text, SIZE, true);
  const x = p.anchor === 'middle' ? p.x - w / 2 : p.anchor === 'end' ? p.x - w : p.x;
  return { x, y: p.y - 9, w, h: 11 };
}

/** Does the wire lie (rather than stand) where its tag is? */
function liesAround(wire: PlacedWire, x: number, y: number): boolean {
  const p = wire.points;
  let lying = true;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 3 < p.length; i += 2) {
    const [x0, y0, x1, y1] = [p[i] as number, p[i + 1] as number, p[i + 2] as number, p[i + 3] as number];
    const d = Math.hypot((x0 + x1) / 2 - x, (y0 + y1) / 2 - y) - (Math.abs(x1 - x0) + Math.abs(y1 - y0)) / 2;
    if (d < least) {
      least = d;
      lying = y0 === y1;
    }
  }
  return lying;
}
