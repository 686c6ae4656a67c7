import type { Plan } from '../plan/types.ts';

const keys = new WeakMap<Plan, number>();
let serial = 0;

/** A number of this very plan object: a worker gets copies, and knows by it that two of them are of one plan. */
export function planKey(plan: Plan): number {
  const key = keys.get(plan) ?? ++serial;
  keys.set(plan, key);
  return key;
}
