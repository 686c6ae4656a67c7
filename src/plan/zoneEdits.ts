import { Draft, patched } from './draft.ts';
import type { Bend, Edit, Id, Moving, Plan, Run, Wire, Zone } from './types.ts';

export type ZonePatch = { readonly [K in keyof Omit<Zone, 'id' | 'order'>]?: Zone[K] | undefined };

/** A new zone at the right end, or at `order`. Others move along. */
export function addZone(plan: Plan, zone: Pick<Zone, 'name' | 'kind'> & ZonePatch, order?: number): { edit: Edit; id: Id } {
  const draft = new Draft(plan);
  const id = draft.newId('z');
  const ids = zoneOrder(plan);
  ids.splice(order ?? ids.length, 0, id);
  for (const [index, other] of ids.entries()) {
    const had = plan.zones[other];
    if (had) draft.setZone({ ...had, order: index });
    else draft.setZone(patched<Zone>({ id, name: zone.name, kind: zone.kind, order: index, width: null }, zone));
  }
  return { edit: draft.edit('zone.add', `Add zone ${zone.name}`), id };
}

export function setZone(plan: Plan, id: Id, patch: ZonePatch): Edit {
  const draft = new Draft(plan);
  const zone = plan.zones[id];
  if (zone) draft.setZone(patched<Zone>(zone, patch));
  return draft.edit('zone.set', `Change zone ${zone?.name ?? id}`);
}

/** Removes a zone with its runs and the bends put in it. `apply` refuses it while parts lie in the zone. */
export function removeZone(plan: Plan, id: Id): Edit {
  const draft = new Draft(plan);
  const zone = plan.zones[id];
  if (zone) {
    draft.removeZone(id);
    for (const run of Object.values(plan.runs)) if (run.a === id || run.b === id) draft.removeRun(run.id);
    const ids = zoneOrder(plan).filter((z) => z !== id);
    for (const [index, other] of ids.entries()) {
      const had = plan.zones[other];
      if (had) draft.setZone({ ...had, order: index });
    }
    dropStrayBends(draft, ids);
  }
  return draft.edit('zone.remove', `Remove zone ${zone?.name ?? id}`);
}

/** Moves a zone to place `order`, counted from the left. Its parts and the bends put in it go with it. */
export function moveZone(plan: Plan, id: Id, order: number): Edit {
  const draft = new Draft(plan);
  const ids = zoneOrder(plan).filter((z) => z !== id);
  if (plan.zones[id]) {
    ids.splice(Math.max(0, Math.min(ids.length, order)), 0, id);
    for (const [index, other] of ids.entries()) {
      const had = plan.zones[other];
      if (had) draft.setZone({ ...had, order: index });
    }
    dropStrayBends(draft, ids);
  }
  return draft.edit('zone.move', `Move zone ${plan.zones[id]?.name ?? id}`);
}

/**
 * Takes bends away that lie in a zone through which their wire leads no longer: it would run there and back again for
 * nothing.
 * @param after zone ids from left to right, as they will stand
 */
function dropStrayBends(draft: Draft, after: readonly Id[]): void {
  const { plan } = draft;
  const before = zoneOrder(plan);
  const leadsThrough = (order: readonly Id[], wire: Wire, zone: Id): boolean => {
    const ends = [wire.from, wire.to].map(({ part }) => order.indexOf(plan.parts[part]?.zone ?? ''));
    const at = order.indexOf(zone);
    return at >= Math.min(...ends) && at <= Math.max(...ends);
  };
  for (const wire of Object.values(plan.wires)) {
    const strays = ({ zone }: Bend): boolean =>
      zone !== undefined && (!after.includes(zone) || (leadsThrough(before, wire, zone) && !leadsThrough(after, wire, zone)));
    if (!wire.bends?.some(strays)) continue;
    const bends = wire.bends.filter((bend) => !strays(bend));
    draft.setWire(patched<Wire>(wire, { bends: bends.length > 0 ? bends : undefined }));
  }
}

/** Sets the cable length between two zones, m; makes the run when there is none. */
export function setRun(plan: Plan, a: Id, b: Id, lengthM: number): { edit: Edit; id: Id } {
  const draft = new Draft(plan);
  const had = Object.values(plan.runs).find((r) => (r.a === a && r.b === b) || (r.a === b && r.b === a));
  const run: Run = had ? { ...had, lengthM } : { id: draft.newId('r'), a, b, lengthM };
  draft.setRun(run);
  return { edit: draft.edit('run.set', `Set run ${plan.zones[a]?.name ?? a} to ${plan.zones[b]?.name ?? b}`), id: run.id };
}

/** Says what moves on the way between two zones; null = nothing does. */
export function setMoving(plan: Plan, id: Id, moving: Moving | null): Edit {
  const draft = new Draft(plan);
  const run = plan.runs[id];
  if (run) draft.setRun(patched<Run>(run, { moving: moving ?? undefined }));
  return draft.edit('run.set', `Set what moves between ${plan.zones[run?.a ?? '']?.name ?? id} and ${plan.zones[run?.b ?? '']?.name ?? id}`);
}

export function removeRun(plan: Plan, id: Id): Edit {
  const draft = new Draft(plan);
  if (plan.runs[id]) draft.removeRun(id);
  return draft.edit('run.remove', 'Remove run');
}

/** Zone ids from left to right. */
export function zoneOrder(plan: Plan): Id[] {
  return Object.values(plan.zones)
    .sort((p, q) => p.order - q.order || (p.id < q.id ? -1 : 1))
    .map((z) => z.id);
}
