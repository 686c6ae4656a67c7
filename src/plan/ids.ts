import type { Id } from './types.ts';

/**
 * Serial number inside an id that the plan gave (`p7` gives 7); null for any other id. A longer number than any plan comes
 * to was made up by hand: it counts as a name, for whoever counted on from it would leave the exact whole numbers.
 */
export function serialOf(id: Id): number | null {
  const match = /^[pwzr](\d{1,12})$/.exec(id);
  return match ? Number(match[1]) : null;
}

/** Order of rows in their table: given ids by serial, then any others by letters. */
export function compareIds(a: Id, b: Id): number {
  const left = serialOf(a);
  const right = serialOf(b);
  if (left !== null && right !== null) return left - right || (a < b ? -1 : 1);
  if (left !== null || right !== null) return left === null ? 1 : -1;
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The same rows in the order of their ids; the same object when they stand so already. */
export function inOrder<T>(rows: Readonly<Record<Id, T>>): Readonly<Record<Id, T>> {
  const ids = Object.keys(rows);
  if (ids.every((id, i) => i === 0 || compareIds(ids[i - 1] ?? '', id) <= 0)) return rows;
  return Object.fromEntries(ids.sort(compareIds).map((id) => [id, rows[id] as T]));
}
