/**
 * Deep equality of plain JSON-like values (objects, arrays, numbers, text, yes/no, null). A key whose value is
 * `undefined` equals an absent one, since JSON cannot tell them apart.
 */
export function sameRow(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const left = a as Readonly<Record<string, unknown>>;
  const right = b as Readonly<Record<string, unknown>>;
  for (const key of Object.keys(left)) if (!sameRow(left[key], right[key])) return false;
  for (const key of Object.keys(right)) if (right[key] !== undefined && left[key] === undefined) return false;
  return true;
}
