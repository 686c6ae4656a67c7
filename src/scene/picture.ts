import { textWidth } from '../drawing/text.ts';
import type { Ink, Primitive } from '../drawing/types.ts';
import { zoneAt } from './layout.ts';
import { fittedMark } from './symbols.ts';
import { tagSize } from './tags.ts';
import type { PlacedWire, PlacedZone, Scene } from './types.ts';
import { isCable } from './wireStyle.ts';

/**
 * The scene as drawing primitives, for the canvas and for SVG alike, in painting order: zones, wires (each later one
 * with a gap in what it passes over), joints, parts, tags, run labels.
 */

/** Insulation that would vanish on a pale ground gets a thin edge. Dark themes bring their own choice. */
export const PALE_INKS: ReadonlySet<Ink> = new Set<Ink>(['wire-WH', 'wire-YE']);

export interface PictureOptions {
  /** Length as the person likes it; default metres with one decimal. */
  readonly lengthText?: (lengthM: number) => string;
  /** Temperature of a zone; default "70 °C". */
  readonly temperatureText?: (maxC: number) => string;
  /** Which inks get an edge; default `PALE_INKS`. */
  readonly edged?: ReadonlySet<Ink>;
}

export function zonePrimitives(zone: PlacedZone, index: number, options: PictureOptions = {}): Primitive[] {
  const { box, bar } = zone;
  const temperature = options.temperatureText?.(zone.maxC) ?? `${zone.maxC} °C`;
  const out: Primitive[] = [
    { t: 'rect', ...box, fill: index % 2 === 0 ? 'zone-a' : 'zone-b' },
    { t: 'text', x: box.x + 16, y: 32, text: zone.name, size: 14, ink: 'ink', bold: true },
    { t: 'text', x: box.x + box.w - 14, y: 32, text: temperature, size: 10.5, ink: 'soft', anchor: 'end' },
    { t: 'rect', ...bar, r: 1, fill: 'faint', ink: 'soft', lw: 0.8 },
  ];
  for (let x = bar.x + 8; x <= bar.x + bar.w; x += 10) out.push({ t: 'line', pts: [x, bar.y + bar.h, x - 6, bar.y + bar.h + 6], ink: 'soft', w: 0.8 });
  if (index > 0) out.push({ t: 'line', pts: [box.x, 0, box.x, box.h], ink: 'faint', w: 1.5, dash: [2, 5], cap: 'round' });
  return out;
}

export function runPrimitives(scene: Scene, options: PictureOptions = {}): Primitive[] {
  return scene.runs.flatMap((run) => {
    const text = options.lengthText?.(run.lengthM) ?? `${run.lengthM.toFixed(1)} m`;
    return pill(run.at.x, run.at.y, text, 10.5, 18);
  });
}

/** One wire without its tag: gaps under its crossings, edge where it would vanish, insulation, stripe. */
export function wirePrimitives(wire: PlacedWire, zones: readonly PlacedZone[], options: PictureOptions = {}): Primitive[] {
  const out: Primitive[] = wire.crossings.map((c) => gap(wire, c.x, c.y, zones));
  const line = { t: 'line', pts: wire.points } as const;
  if ((options.edged ?? PALE_INKS).has(wire.ink)) out.push({ ...line, ink: 'edge', w: wire.width + 1.4 });
  out.push({ ...line, ink: wire.ink, w: wire.width });
  if (wire.stripe) {
    const w = Math.max(0.9, wire.width * 0.38);
    out.push(isCable(wire) ? { ...line, ink: wire.stripe, w: 1 } : { ...line, ink: wire.stripe, w, dash: [7, 5] });
  }
  return out;
}

/** The ground shows for a short way on both sides of the upper wire. */
function gap(wire: PlacedWire, x: number, y: number, zones: readonly PlacedZone[]): Primitive {
  const half = 4;
  const zone = zoneAt(zones, x);
  const ink: Ink = zone && zones.indexOf(zone) % 2 === 1 ? 'zone-b' : 'zone-a';
  const pts = liesAt(wire.points, x, y) ? [x - half, y, x + half, y] : [x, y - half, x, y + half];
  return { t: 'line', pts, ink, w: wire.width + 5 };
}

function liesAt(pts: readonly number[], x: number, y: number): boolean {
  for (let i = 0; i + 3 < pts.length; i += 2) {
    if (pts[i + 1] === y && pts[i + 3] === y) {
      const a = pts[i] as number;
      const b = pts[i + 2] as number;
      if (Math.min(a, b) < x && x < Math.max(a, b)) return true;
    }
  }
  return false;
}

export function tagPrimitives(wire: PlacedWire): Primitive[] {
  if (wire.tag === '') return [];
  const { w, h } = tagSize(wire.tag);
  const { x, y } = wire.tagAt;
  return [...pill(x, y, wire.tag, 9, h), ...(wire.fitted ? [fittedMark(x - w / 2 - 3, y - h / 2 - 1, 8)] : [])];
}

/** A small paper pill with text in its middle. */
function pill(x: number, y: number, text: string, size: number, h: number): Primitive[] {
  const w = Math.max(20, textWidth(text, size, true) + size);
  return [
    { t: 'rect', x: x - w / 2, y: y - h / 2, w, h, r: h / 2, fill: 'paper', ink: 'faint', lw: 1 },
    { t: 'text', x, y: y + size * 0.36, text, size, ink: 'soft', bold: true, anchor: 'middle' },
  ];
}

export function jointPrimitives(scene: Pick<Scene, 'joints'>): Primitive[] {
  return scene.joints.map((p) => ({ t: 'circle', x: p.x, y: p.y, r: 3.5, fill: 'ink' }));
}

/** Everything, in painting order. */
export function scenePrimitives(scene: Scene, options: PictureOptions = {}): Primitive[] {
  const wires = [...scene.wires.values()];
  return [
    ...scene.zones.flatMap((z, i) => zonePrimitives(z, i, options)),
    ...wires.flatMap((w) => wirePrimitives(w, scene.zones, options)),
    ...jointPrimitives(scene),
    ...[...scene.parts.values()].flatMap((p) => p.primitives),
    ...wires.flatMap(tagPrimitives),
    ...runPrimitives(scene, options),
  ];
}
