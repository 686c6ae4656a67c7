/** How a fuse link behaves in time, as plain numbers. */
export interface FuseGates {
  /** Time to open at a constant current from cold: currents rising, times falling; straight on log-log paper between. Below the first it never opens. */
  readonly opens: readonly { readonly amp: number; readonly s: number }[];
  /** Melting integral, A2s, above the last of `opens`; absent = that of the last itself. */
  readonly meltA2s?: number;
  /** Time constant with which the link cools while it carries less than the first of `opens`, s; absent = a third of its time. */
  readonly coolS?: number;
}

export interface FuseState {
  /** Share of the way to melting, 0 (cold) to 1 (open). */
  readonly heat: number;
  /** When it opened within the interval, s from its start; null while it holds. */
  readonly openedAfterS: number | null;
}

/** Thermal time constant over the time to open at the least current that opens (common practice, no source). */
const COOL_SHARE = 1 / 3;
/** A change of current within an interval is followed in parts of at most this ratio. */
const PART_RATIO = 1.25;
const MOST_PARTS = 64;

/** Longest time at the current `amp` (A, either sign), s; Infinity where it never opens. */
export function openingS(gates: FuseGates, amp: number): number {
  const size = Math.abs(amp);
  const { opens } = gates;
  const last = opens[opens.length - 1];
  if (!last || size < opens[0]!.amp) return Number.POSITIVE_INFINITY;
  if (size >= last.amp) return (gates.meltA2s ?? last.s * last.amp * last.amp) / (size * size);
  let k = 1;
  while (opens[k]!.amp <= size) k++;
  const from = opens[k - 1]!;
  const to = opens[k]!;
  const share = Math.log(size / from.amp) / Math.log(to.amp / from.amp);
  return from.s * (to.s / from.s) ** share;
}

/**
 * Heats (or cools) a fuse over an interval in which its current goes straight from `fromA` to `toA`. Each moment takes
 * its share of the time to open at that current: a pure I2t above the last gate, slow heating between the gates; a
 * constant current opens exactly at its gate. Sharing by time at each level: linear damage after Palmgren and Miner (from memory).
 * @param heat state at the start, 0..1
 */
export function fuseHeat(gates: FuseGates, heat: number, spanS: number, fromA: number, toA: number): FuseState {
  if (heat >= 1) return { heat: 1, openedAfterS: 0 };
  const first = gates.opens[0];
  if (!first || !(spanS > 0)) return { heat, openedAfterS: null };
  const low = Math.max(Math.min(Math.abs(fromA), Math.abs(toA)), first.amp);
  const high = Math.max(Math.abs(fromA), Math.abs(toA), first.amp);
  const parts = Math.min(MOST_PARTS, 1 + Math.ceil(Math.log(high / low) / Math.log(PART_RATIO)));
  const coolS = gates.coolS ?? COOL_SHARE * first.s;
  const rate = (share: number): number => 1 / openingS(gates, fromA + share * (toA - fromA));
  const partS = spanS / parts;
  let level = heat;
  for (let k = 0; k < parts; k++) {
    // Simpson's rule: exact where the law is I2t.
    const gain = ((rate(k / parts) + 4 * rate((k + 0.5) / parts) + rate((k + 1) / parts)) * partS) / 6;
    if (gain === 0) level *= Math.exp(-partS / coolS);
    else if (level + gain >= 1) return { heat: 1, openedAfterS: (k + (1 - level) / gain) * partS };
    else level += gain;
  }
  return { heat: level, openedAfterS: null };
}
