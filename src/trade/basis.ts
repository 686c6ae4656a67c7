/**
 * Where a figure comes from.
 * - `read`: seen in the named source, a copy of it or a quotation from it;
 * - `from memory`: recalled from the named source, to be checked against the bought text before it is relied on;
 * - `common practice`: fitters' habit, no source;
 * - `calculated`: follows from a formula given beside it.
 */
export type Basis = 'read' | 'from memory' | 'common practice' | 'calculated';

/** Throws a RangeError that carries the offending value; used by every table and formula of this room. */
export function demand(ok: boolean, what: string, value: unknown): asserts ok {
  if (!ok) throw new RangeError(`${what}: ${String(value)}`);
}

/** `demand` for a finite number inside an inclusive range. */
export function demandNumber(value: number, min: number, max: number, what: string): void {
  demand(Number.isFinite(value) && value >= min && value <= max, `${what} must lie between ${min} and ${max}`, value);
}

/** Straight line on log-log paper through (x, y) points in rising x; beyond the ends the last two points are prolonged. */
export function logLog(points: readonly (readonly [x: number, y: number])[], x: number): number {
  let i = 1;
  while (i < points.length - 1 && x > points[i]![0]) i++;
  const [x0, y0] = points[i - 1]!;
  const [x1, y1] = points[i]!;
  return y0 * (x / x0) ** (Math.log(y1 / y0) / Math.log(x1 / x0));
}
