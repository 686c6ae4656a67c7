import type { Facts } from '../analysis/factsTypes.ts';

/** What several rules ask of the same facts is worked out at the first question and kept as long as the facts are. */
export function once<T extends object>(workOut: (facts: Facts) => T): (facts: Facts) => T {
  const known = new WeakMap<Facts, T>();
  return (facts) => {
    let found = known.get(facts);
    if (found === undefined) {
      found = workOut(facts);
      known.set(facts, found);
    }
    return found;
  };
}
