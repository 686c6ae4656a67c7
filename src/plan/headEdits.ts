import { Draft, patched } from './draft.ts';
import type { Edit, Plan, Vehicle } from './types.ts';

/** Changes title or note. */
export function setHead(plan: Plan, patch: { readonly title?: string; readonly note?: string }): Edit {
  const draft = new Draft(plan);
  draft.setHead(patch);
  return draft.edit('plan.set', patch.title === undefined ? 'Change note' : 'Rename plan');
}

/** Answers facts about the vehicle; `supplyV: undefined` goes back to the table. */
export function setVehicle(plan: Plan, patch: { readonly [K in keyof Vehicle]?: Vehicle[K] | undefined }): Edit {
  const draft = new Draft(plan);
  draft.setHead({ vehicle: patched<Vehicle>(plan.vehicle, patch) });
  return draft.edit('vehicle.set', 'Change vehicle');
}

/** Sets a threshold of the person's own, or frees it (`undefined`) back to the rule's default. */
export function setThreshold(plan: Plan, key: string, value: number | undefined): Edit {
  const draft = new Draft(plan);
  draft.setHead({ thresholds: patched<Record<string, number>>(plan.thresholds, { [key]: value }) });
  return draft.edit('threshold.set', 'Change limit');
}

/** Sets a finding or a question aside with a reason, or takes it back (`undefined`). */
export function setAside(plan: Plan, key: string, reason: string | undefined): Edit {
  const draft = new Draft(plan);
  draft.setHead({ setAside: patched<Record<string, string>>(plan.setAside, { [key]: reason }) });
  return draft.edit(reason === undefined ? 'aside.clear' : 'aside.set', reason === undefined ? 'Take finding back' : 'Set finding aside');
}
