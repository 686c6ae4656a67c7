import { Draft, patched } from './draft.ts';
import { count, nameOf } from './rows.ts';
import type { Edit, Id, Part, Plan, Stage, Wire } from './types.ts';

/** What of a wire is frozen once it is in the vehicle. */
const FROZEN = ['number', 'areaMm2', 'colour', 'stripe', 'lengthM', 'insulationC'] as const satisfies readonly (keyof Wire)[];

/** Says where the person stands in the job. */
export function setStage(plan: Plan, stage: Stage): Edit {
  const draft = new Draft(plan);
  draft.setHead({ stage });
  return draft.edit('stage.set', 'Change stage of the job');
}

/**
 * Ticks lines of the job, or opens them again.
 * @param instead ticks that begin with this and are not among the keys go: a later word on the same thing
 */
export function setTicks(plan: Plan, keys: readonly string[], done: boolean, instead?: string): Edit {
  const draft = new Draft(plan);
  const ticks: Record<string, true> = {};
  for (const key of Object.keys(plan.ticks ?? {})) if (!keys.includes(key) && !(instead !== undefined && key.startsWith(instead))) ticks[key] = true;
  if (done) for (const key of keys) ticks[key] = true;
  // An empty list is left out of the plan, as it was before the first tick.
  draft.setHead({ ticks: Object.keys(ticks).length === 0 ? undefined : ticks });
  return draft.edit('tick.set', done ? 'Tick as done' : 'Open again');
}

/**
 * Ticks parts and wires as fitted, or takes that back. What goes into the vehicle is frozen: its automatic values become
 * values of its own, so that nothing drawn later changes what is already cut and crimped.
 * @param filled the same plan with its automatic values
 */
export function setFitted(plan: Plan, filled: Plan, ids: { readonly parts: readonly Id[]; readonly wires: readonly Id[] }, done: boolean): Edit {
  const draft = new Draft(plan);
  for (const id of ids.parts) {
    const part = plan.parts[id];
    if (!part) continue;
    const settings = done ? { ...part.settings, ...filled.parts[id]?.settings } : part.settings;
    draft.setPart(patched<Part>({ ...part, settings }, { fitted: done ? true : undefined }));
  }
  for (const id of ids.wires) {
    const wire = plan.wires[id];
    if (!wire) continue;
    const now = filled.wires[id] ?? wire;
    const values = done ? Object.fromEntries(FROZEN.flatMap((key) => (now[key] === undefined ? [] : [[key, now[key]]]))) : {};
    draft.setWire(patched<Wire>(wire, { ...values, fitted: done ? true : undefined }));
  }
  return draft.edit('fitted.set', `${done ? 'Tick as fitted' : 'No longer fitted'}: ${whatOf(plan, ids)}`);
}

function whatOf(plan: Plan, { parts, wires }: { readonly parts: readonly Id[]; readonly wires: readonly Id[] }): string {
  const only = parts.length === 1 && wires.length === 0 ? plan.parts[parts[0] ?? ''] : undefined;
  if (only) return nameOf(only);
  return [parts.length > 0 ? count(parts.length, 'part') : '', wires.length > 0 ? count(wires.length, 'wire') : ''].filter((t) => t !== '').join(', ');
}
