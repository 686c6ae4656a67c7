import { apply } from '../../src/plan/apply.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';

/** The plan after an edit. @throws Error with the reason when it is refused. */
export function applyOrThrow(plan: Plan, edit: Edit): Plan {
  const applied = apply(plan, edit);
  if (!applied.ok) throw new Error(`${edit.label}: ${applied.reason}`);
  return applied.plan;
}
