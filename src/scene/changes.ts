import { inflate, union } from '../drawing/box.ts';
import { textWidth } from '../drawing/text.ts';
import type { Box, Ink, Point, Primitive } from '../drawing/types.ts';
import type { PlanDiff } from '../plan/diff.ts';
import type { Id } from '../plan/types.ts';
import type { PlacedPart, PlacedWire, Scene } from './types.ts';

/** What happened to a part or a wire; each has a mark of a shape of its own, so that black and white tells them apart. */
export type Happened = 'added' | 'changed' | 'removed';

/** Room between a part with its words and the frame round it; below stands the item number on paper, u. */
const FRAME_U = 6;
const FOOT_U = 9;
/** Frame of what is in both and not alike. */
export const DASH = [6, 4] as const;
const MARK_R = 8;

/** What was added and what was changed, by id. */
export function happenedTo(diff: PlanDiff): ReadonlyMap<Id, 'added' | 'changed'> {
  const out = new Map<Id, 'added' | 'changed'>();
  for (const table of [diff.parts, diff.wires]) {
    for (const row of table.added) out.set(row.id, 'added');
    for (const row of table.changed) out.set(row.id, 'changed');
  }
  return out;
}

/** The scene with everything that stayed the same drawn faint: only what changed stands out. */
export function faded(scene: Scene, happened: ReadonlyMap<Id, unknown>): Scene {
  const parts = new Map([...scene.parts].map(([id, part]) => [id, happened.has(id) ? part : fadedPart(part)]));
  const wires = new Map([...scene.wires].map(([id, wire]) => [id, happened.has(id) ? wire : fadedWire(wire)]));
  return { ...scene, parts, wires, joints: [] };
}

const GROUNDS: ReadonlySet<Ink> = new Set<Ink>(['paper', 'ground', 'zone-a', 'zone-b', 'faint']);
const pale = (ink: Ink): Ink => (GROUNDS.has(ink) ? ink : 'faint');

function fadedPart(part: PlacedPart): PlacedPart {
  return { ...part, primitives: part.primitives.map(fadedPrimitive) };
}

function fadedPrimitive(p: Primitive): Primitive {
  // Names are still read: they say where a changed wire ends.
  if (p.t === 'text') return { ...p, ink: p.ink === 'paper' ? 'paper' : 'soft', bold: false };
  if (p.t === 'line' || p.t === 'arc') return { ...p, ink: pale(p.ink) };
  return { ...p, ...(p.fill ? { fill: pale(p.fill) } : {}), ...(p.ink ? { ink: pale(p.ink) } : {}) };
}

function fadedWire(wire: PlacedWire): PlacedWire {
  const { fitted: _fitted, ...rest } = wire;
  return { ...rest, ink: 'faint', stripe: null, width: 1.2, tag: '', owner: 'vehicle', crossings: [] };
}

/**
 * Frames and marks over what changed, and what was taken out, dashed and where it stood.
 * @param was the scene of the build as it was
 */
export function changePrimitives(scene: Scene, was: Scene, diff: PlanDiff): Primitive[] {
  const happened = happenedTo(diff);
  const shift = shiftOf(was, scene);
  return [
    ...diff.wires.removed.flatMap((row) => goneWire(was.wires.get(row.id), shift)),
    ...diff.parts.removed.flatMap((row) => gonePart(was.parts.get(row.id), shift)),
    ...[...scene.parts.values()].flatMap((part) => {
      const what = happened.get(part.id);
      if (!what) return [];
      const box = frameOf(part);
      return [frame(box, what === 'changed' ? DASH : undefined), ...changeMark(what, box.x, box.y)];
    }),
    ...[...scene.wires.values()].flatMap((wire) => {
      const what = happened.get(wire.id);
      return what ? changeMark(what, wire.tagAt.x, wire.tagAt.y - 17) : [];
    }),
  ];
}

/** Mark about a middle: disc with plus = added, lozenge with a hole = changed, square with a cross = removed. */
export function changeMark(what: Happened, x: number, y: number): Primitive[] {
  const r = MARK_R;
  const line = (...pts: number[]): Primitive => ({ t: 'line', pts: pts.map((v, i) => v + (i % 2 === 0 ? x : y)), ink: 'paper', w: 2.2 });
  switch (what) {
    case 'added':
      return [{ t: 'circle', x, y, r, fill: 'ink', ink: 'paper', lw: 1.2 }, line(-4.5, 0, 4.5, 0), line(0, -4.5, 0, 4.5)];
    case 'changed':
      return [
        { t: 'poly', pts: [x, y - r - 1.5, x + r + 1.5, y, x, y + r + 1.5, x - r - 1.5, y], fill: 'ink', ink: 'paper', lw: 1.2 },
        { t: 'circle', x, y, r: 2.8, fill: 'paper' },
      ];
    case 'removed':
      return [
        { t: 'rect', x: x - r + 0.5, y: y - r + 0.5, w: 2 * r - 1, h: 2 * r - 1, fill: 'ink', ink: 'paper', lw: 1.2 },
        line(-4, -4, 4, 4),
        line(4, -4, -4, 4),
      ];
  }
}

/** Room of a part with its words. */
export function frameOf(part: PlacedPart): Box {
  const box = inflate(union([part.box, ...part.labels]), FRAME_U);
  return { ...box, h: box.h + FOOT_U };
}

export function frame({ x, y, w, h }: Box, dash?: readonly number[]): Primitive {
  return { t: 'line', pts: [x, y, x + w, y, x + w, y + h, x, y + h, x, y], ink: 'ink', w: 1.8, ...(dash ? { dash } : {}) };
}

function gonePart(part: PlacedPart | undefined, shift: (x: number) => number): Primitive[] {
  if (!part) return [];
  const box = { ...part.box, x: part.box.x + shift(part.box.x) };
  const { x, y, w, h } = box;
  return [
    frame(box, [3, 3]),
    { t: 'line', pts: [x, y, x + w, y + h], ink: 'ink', w: 1 },
    { t: 'line', pts: [x, y + h, x + w, y], ink: 'ink', w: 1 },
    ...label({ x: x + w / 2, y: y + h + 12 }, part.name),
    ...changeMark('removed', x, y),
  ];
}

function goneWire(wire: PlacedWire | undefined, shift: (x: number) => number): Primitive[] {
  if (!wire) return [];
  const pts = wire.points.map((v, i) => (i % 2 === 0 ? v + shift(v) : v));
  const at = { x: wire.tagAt.x + shift(wire.tagAt.x), y: wire.tagAt.y };
  return [{ t: 'line', pts, ink: 'ink', w: 1.6, dash: [2, 5] }, ...label(at, wire.tag), ...changeMark('removed', at.x, at.y - 17)];
}

function label(at: Point, text: string): Primitive[] {
  if (text === '') return [];
  const w = textWidth(text, 10.6) + 6;
  return [
    { t: 'rect', x: at.x - w / 2, y: at.y - 7.5, w, h: 15, fill: 'paper', ink: 'ink', lw: 0.6 },
    { t: 'text', x: at.x, y: at.y + 3.8, text, size: 10.6, ink: 'ink', anchor: 'middle' },
    { t: 'line', pts: [at.x - w / 2, at.y, at.x + w / 2, at.y], ink: 'ink', w: 0.8 },
  ];
}

/** How far a zone has moved across since then; 0 outside of every zone that still stands. */
function shiftOf(was: Scene, now: Scene): (x: number) => number {
  const zones = was.zones.flatMap((zone) => {
    const here = now.zones.find((z) => z.id === zone.id);
    return here ? [{ from: zone.box.x, to: zone.box.x + zone.box.w, by: here.box.x - zone.box.x }] : [];
  });
  return (x) => zones.find((z) => x >= z.from && x <= z.to)?.by ?? 0;
}
