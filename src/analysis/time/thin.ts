/** Points that a strip is drawn from at most. */
export const MOST_POINTS = 4000;

/**
 * Thins a trace for drawing: of each slot of points the first, least, greatest and last are kept, so that no dip is lost.
 * @returns the same arrays when they are short enough
 */
export function thinned(tS: Float64Array, volts: Float64Array, most = MOST_POINTS): { readonly tS: Float64Array; readonly volts: Float64Array } {
  const n = tS.length;
  if (n <= most) return { tS, volts };
  const slot = Math.ceil((4 * n) / most);
  const kept: number[] = [];
  for (let from = 0; from < n; from += slot) {
    const to = Math.min(n, from + slot);
    let least = from;
    let greatest = from;
    for (let k = from; k < to; k++) {
      if (volts[k]! < volts[least]!) least = k;
      if (volts[k]! > volts[greatest]!) greatest = k;
    }
    for (const k of new Set([from, Math.min(least, greatest), Math.max(least, greatest), to - 1])) kept.push(k);
  }
  return { tS: Float64Array.from(kept, (k) => tS[k]!), volts: Float64Array.from(kept, (k) => volts[k]!) };
}
