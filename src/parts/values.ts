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

/** Three figures with an SI prefix and the unit, e.g. `470 µF`, `2.2 kΩ`, `5 A`. */
export { formatAmount as withUnit } from '../trade/amounts.ts';

const figure = new Intl.NumberFormat('en-GB', { maximumSignificantDigits: 3, useGrouping: false });

/** Three significant figures without unit. */
export function plain(value: number): string {
  return figure.format(value);
}
