import { Draft, patched } from './draft.ts';
import type { Edit, Id, Moving, Plan, Run, Zone } from './types.ts';

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

/** Removes a zone with its runs. `apply` refuses it while parts lie in the zone. */
export function removeZone(plan: Plan, id: Id): Edit {
  const draft = new Draft(plan);
  const zone = plan.zones[id];
  if (zone) {
    draft.removeZone(id);
    for (const run of Object.values(plan.runs)) if (run.a === id || run.b === id) draft.removeRun(run.id);
    for (const [index, other] of zoneOrder(plan)
      .filter((z) => z !== id)
      .entries()) {
      const had = plan.zones[other];
      if (had) draft.setZone({ ...had, order: index });
    }
  }
  return draft.edit('zone.remove', `Remove zone ${zone?.name ?? id}`);
}

/** Moves a zone to place `order`, counted from the left. */
export function moveZone(plan: Plan, id: Id, order: number): Edit {
  const draft = new Draft(plan);
  const ids = zoneOrder(plan).filter((z) => z !== id);
  if (plan.zones[id]) {
    ids.splice(Math.max(0, Math.min(ids.length, order)), 0, id);
    for (const [index, other] of ids.entries()) {
      const had = plan.zones[other];
      if (had) draft.setZone({ ...had, order: index });
    }
  }
  return draft.edit('zone.move', `Move zone ${plan.zones[id]?.name ?? id}`);
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
