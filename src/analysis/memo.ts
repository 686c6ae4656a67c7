/** Where answers are kept: a `WeakMap` lets them go with what was asked about. */
interface Answers<K, T> {
  get(key: K): T | undefined;
  set(key: K, answer: T): unknown;
}

/** Works an answer out at the first question and keeps it. */
export function memo<K, T>(workOut: (key: K) => T, known: Answers<K, T> = new Map<K, T>()): (key: K) => T {
  return (key) => {
    let found = known.get(key);
    if (found === undefined) {
      found = workOut(key);
      known.set(key, found);
    }
    return found;
  };
}
