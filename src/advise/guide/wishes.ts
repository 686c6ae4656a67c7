import { setTicks } from '../../plan/edits.ts';
import type { Edit, Plan } from '../../plan/types.ts';
import type { Wish } from './types.ts';

const WITHOUT = 'guide:without:';

/** Does this build do without a thing? */
export function isWithout(plan: Plan, wish: Wish): boolean {
  return plan.ticks?.[WITHOUT + wish] === true;
}

/** Says that this build does without a thing, or wants it after all. */
export function leaveOut(plan: Plan, wish: Wish, out: boolean): Edit {
  return { ...setTicks(plan, [WITHOUT + wish], out), intent: 'guide.without', label: out ? 'Leave out a step' : 'Take a step back in' };
}

/** The same for a new plan. */
export function withoutTicks(wishes: readonly Wish[]): Readonly<Record<string, true>> {
  return Object.fromEntries(wishes.map((wish) => [WITHOUT + wish, true as const]));
}
