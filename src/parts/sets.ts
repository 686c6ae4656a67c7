import { addParts, type Fragment } from '../plan/edits.ts';
import type { Edit, Id, Plan, Values } from '../plan/types.ts';
import { partKind } from './registry.ts';
import type { SetDef } from './types.ts';

const modules = import.meta.glob<Record<string, unknown>>('./sets/*.ts', { eager: true });

/** Every set, by its id. A new file in `sets/` is enough to add one. */
export const partSets: ReadonlyMap<string, SetDef> = new Map(
  Object.values(modules)
    .flatMap((m) => Object.values(m))
    .filter((v): v is SetDef => typeof v === 'object' && v !== null && 'parts' in v && 'wires' in v)
    .map((set) => [set.id, set]),
);

/** Settings that a part of a set comes with in a vehicle of that voltage. */
export function setPartSettings(part: SetDef['parts'][number], systemV: 12 | 24): Values {
  return { ...part.settings, ...(systemV === 24 ? part.settings24 : {}) };
}

/**
 * Drops a set as ordinary parts and wires, one edit.
 * @param x left of the drop point inside the zone, drawing units; negative positions are moved to the zone's edge
 * @returns the edit, the new part ids by their key in the set, and the wires in the set's order
 * @throws Error when there is no such set (programmer misuse)
 */
export function dropSet(
  plan: Plan,
  setId: string,
  zone: Id,
  x: number,
  y: number,
): { readonly edit: Edit; readonly ids: Readonly<Record<string, Id>>; readonly wires: readonly Id[] } {
  const set = partSets.get(setId);
  if (!set) throw new Error(`no set "${setId}"`);
  const parts: Fragment['parts'] = set.parts.map((p) => ({
    key: p.key,
    kind: p.kind,
    zone,
    x: Math.max(0, x) + p.x,
    y: Math.max(0, y) + p.y,
    turn: p.turn ?? 0,
    settings: setPartSettings(p, plan.vehicle.systemV),
    owner: partKind(p.kind).owner ?? 'build',
    ...(p.name === undefined ? {} : { name: p.name }),
  }));
  const wires = set.wires.map((w) => ({ from: w.from, to: w.to, ...(w.lengthM === undefined ? {} : { extras: { lengthM: w.lengthM } }) }));
  return addParts(plan, { parts, wires }, 'set.add', `Add ${set.title}`);
}
