import type { Point } from '../drawing/types.ts';
import type { Id, Plan, Wire } from '../plan/types.ts';
import { type PassesOver, passesOver } from './passesOver.ts';
import { TagPlacer } from './tags.ts';
import type { PlacedPart, PlacedWire, Scene } from './types.ts';
import { wireStyle } from './wireStyle.ts';

/** So many wires are dressed in one step. */
const DRESSED = 100;

/** A scene that was drawn before, and what it was drawn from. */
export interface Earlier {
  readonly scene: Scene;
  readonly wires: Plan['wires'];
  readonly over: PassesOver;
}

/**
 * Gives wires with known ways their looks, numbers and crossings, in the order of the plan; what is as it was in the scene
 * before is the same object again. Yields after every so many wires.
 * @param isQuick at a first look numbers stay where they were; with care they are placed in order, so that the same plan is drawn alike
 */
export function* dressWires(
  plan: Plan,
  parts: ReadonlyMap<Id, PlacedPart>,
  lines: ReadonlyMap<Id, readonly number[]>,
  earlier: Earlier | undefined,
  isQuick: boolean,
): Generator<void, { readonly wires: Map<Id, PlacedWire>; readonly over: PassesOver }> {
  const rows = Object.values(plan.wires).filter((w) => lines.has(w.id));
  const ordered = new Map(rows.map((w) => [w.id, lines.get(w.id) as readonly number[]]));
  const previous = earlier?.scene;
  const over = passesOver(ordered, earlier && { lines: waysOf(earlier.scene), over: earlier.over });
  yield;
  const tags = new TagPlacer([...parts.values()].flatMap((p) => [p.box, ...p.labels]));
  const tagOf = (wire: Wire): string => (wire.owner === 'vehicle' || wire.number === undefined ? '' : `W${wire.number}`);
  const places = new Map<Id, Point>();
  if (previous && isQuick)
    for (const wire of rows) {
      const old = previous.wires.get(wire.id);
      if (old && old.points === ordered.get(wire.id) && old.tag === tagOf(wire) && tags.keep(old.tagAt, old.tag)) places.set(wire.id, old.tagAt);
    }
  const wires = new Map<Id, PlacedWire>();
  const samePart = (id: Id): boolean => parts.get(id) === previous?.parts.get(id);
  for (const wire of rows) {
    if (wires.size % DRESSED === 0) yield;
    const points = ordered.get(wire.id) as readonly number[];
    const old = previous?.wires.get(wire.id);
    const passes = over.get(wire.id)?.at ?? [];
    const isUntouched = old && places.get(wire.id) === old.tagAt && old.crossings === passes && earlier?.wires[wire.id] === wire;
    if (isUntouched && samePart(wire.from.part) && samePart(wire.to.part)) {
      wires.set(wire.id, old);
      continue;
    }
    const from = parts.get(wire.from.part)?.pads[wire.from.terminal]?.form;
    const to = parts.get(wire.to.part)?.pads[wire.to.terminal]?.form;
    const tag = tagOf(wire);
    const next: PlacedWire = {
      id: wire.id,
      owner: wire.owner,
      points,
      ...wireStyle(wire, from, to),
      tag,
      ...(wire.fitted ? { fitted: true as const } : {}),
      tagAt: places.get(wire.id) ?? tags.place(points, tag),
      crossings: passes,
    };
    wires.set(wire.id, old && sameWire(old, next) ? old : next);
  }
  return { wires, over };
}

function waysOf(scene: Scene): ReadonlyMap<Id, readonly number[]> {
  return new Map([...scene.wires].map(([id, wire]) => [id, wire.points]));
}

function sameWire(a: PlacedWire, b: PlacedWire): boolean {
  if (
    a.points !== b.points ||
    a.ink !== b.ink ||
    a.stripe !== b.stripe ||
    a.width !== b.width ||
    a.tag !== b.tag ||
    a.fitted !== b.fitted ||
    a.owner !== b.owner
  )
    return false;
  if (a.tagAt.x !== b.tagAt.x || a.tagAt.y !== b.tagAt.y || a.crossings.length !== b.crossings.length) return false;
  if (a.crossings === b.crossings) return true;
  return a.crossings.every((p, i) => p.x === b.crossings[i]?.x && p.y === b.crossings[i]?.y);
}
