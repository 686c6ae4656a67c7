import type { Facts } from '../analysis/factsTypes.ts';
import { memo } from '../analysis/memo.ts';

/** What several rules ask of the same facts is worked out at the first question and kept as long as the facts are. */
export function once<T extends object | boolean>(workOut: (facts: Facts) => T): (facts: Facts) => T {
  return memo(workOut, new WeakMap<Facts, T>());
}
