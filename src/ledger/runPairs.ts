import type { Id, Run } from '../plan/types.ts';

export interface Pair {
  readonly key: string;
  readonly a: Id;
  readonly b: Id;
  readonly run?: Run;
}

/**
 * Every two zones of a plan, sorted into those that have a row and those one may ask for.
 * @param order zones from left to right
 * @param asked keys of pairs asked for and not measured yet
 */
export function pairsOf(
  order: readonly Id[],
  runs: readonly Run[],
  asked: readonly string[],
): { readonly rows: readonly Pair[]; readonly more: readonly Pair[] } {
  const rows: Pair[] = [];
  const more: Pair[] = [];
  order.forEach((a, i) => {
    order.slice(i + 1).forEach((b, j) => {
      const key = `${a} ${b}`;
      const run = runs.find((r) => (r.a === a && r.b === b) || (r.a === b && r.b === a));
      if (run) rows.push({ key, a, b, run });
      else if (j === 0 || asked.includes(key)) rows.push({ key, a, b });
      else more.push({ key, a, b });
    });
  });
  return { rows, more };
}
