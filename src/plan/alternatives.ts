import { freshPlanId } from './new.ts';
import type { Alternative, Plan } from './types.ts';

/** What tells to which plan a wiring belongs; a plan and an entry of a list of plans both have it. */
export interface Wiring {
  readonly id: string;
  readonly alternative?: Alternative;
}

/** Letter of the plan that was there first. */
export const FIRST = 'A';
const LAST = 'Z';
/**
 * Each wiring makes its ids in a stretch of its own, so that an id that two wirings have means the same part or wire in
 * both: it was there before the one was copied from the other.
 */
export const STRETCH = 1_000_000;

/** `A`, `B`, `C` ... */
export function letterOf(wiring: Pick<Wiring, 'alternative'>): string {
  return wiring.alternative?.letter ?? FIRST;
}

/** Id of the first plan of all wirings that belong together. */
export function familyOf(wiring: Wiring): string {
  return wiring.alternative?.of ?? wiring.id;
}

/** Those of a list that are wirings of the same plan, the given one among them when it is listed, by letters. */
export function wiringsOf<T extends Wiring>(of: Wiring, list: readonly T[]): T[] {
  return list.filter((w) => familyOf(w) === familyOf(of)).sort((a, b) => (letterOf(a) < letterOf(b) ? -1 : 1));
}

/**
 * A copy of a plan under the next letter; parts and wires keep their ids.
 * @param list plans that are kept: no letter of theirs is given twice
 * @param id identity of the copy; a fresh random one unless given
 * @returns null when the letters are used up
 */
export function alternativeTo(plan: Plan, list: readonly Wiring[], id: string = freshPlanId()): Plan | null {
  const letters = [plan, ...wiringsOf(plan, list)].map(letterOf).sort();
  const highest = letters[letters.length - 1] ?? FIRST;
  if (highest >= LAST) return null;
  const letter = String.fromCharCode(highest.charCodeAt(0) + 1);
  const stretch = (letter.charCodeAt(0) - FIRST.charCodeAt(0)) * STRETCH;
  return { ...plan, id, alternative: { of: familyOf(plan), letter }, nextSerial: Math.max(plan.nextSerial, stretch) };
}
