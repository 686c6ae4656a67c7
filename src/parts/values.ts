import type { Band } from '../plan/types.ts';

/** Temperature coefficient of copper at 20 degrees C, 1/K (IEC 60228, read in quotation). */
const COPPER_PER_K = 0.00393;

/** Factor on a copper winding's resistance and hence on the volts it needs, at that temperature. */
export function copperFactor(tempC: number): number {
  return 1 + COPPER_PER_K * (tempC - 20);
}

/** A part's own figure for a band: `weak` in the low band, `strong` in the high one, the middle between. */
export function byBand(band: Band, weak: number, strong: number): number {
  if (band === 'low') return weak;
  return band === 'high' ? strong : (weak + strong) / 2;
}

const figure = new Intl.NumberFormat('en-GB', { maximumSignificantDigits: 3, useGrouping: false });
const STEPS = [
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
  [1e-12, 'p'],
] as const;

/** Three figures with an SI prefix and the unit, e.g. `470 µF`, `2.2 kΩ`, `5 A`. */
export function withUnit(value: number, unit: string): string {
  if (value === 0) return `0 ${unit}`;
  const size = Math.abs(value);
  const step = STEPS.find(([s]) => size >= s * 0.9995) ?? STEPS[STEPS.length - 1]!;
  return `${figure.format(value / step[0])} ${step[1]}${unit}`;
}

/** Three significant figures without unit. */
export function plain(value: number): string {
  return figure.format(value);
}
