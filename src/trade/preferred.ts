/** Preferred values and resistor power; amounts as people type them come along from their own file. */
import { demandNumber } from './basis.ts';

export { type AmountUnit, formatAmount, parseAmount, UNIT_TEXT } from './amounts.ts';

export type Series = 'E6' | 'E12' | 'E24';

/** One decade of each series. Source: IEC 60063 (from memory). */
export const SERIES: Record<Series, readonly number[]> = {
  E6: [1, 1.5, 2.2, 3.3, 4.7, 6.8],
  E12: [1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2],
  E24: [1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2, 2.2, 2.4, 2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1],
};

/** Tidies a mantissa times a power of ten, so that 2.2e-4 is not 0.00022000000000000003. */
const tidy = (value: number): number => Number(value.toPrecision(12));

/**
 * The preferred value next to a positive value: at or above it, at or below it, or nearest by ratio.
 * A value already in the series (to one part in a million) is returned as the series has it.
 * @throws RangeError unless 1e-15 <= value <= 1e15.
 */
export function nearestPreferred(value: number, series: Series, way: 'up' | 'down' | 'nearest'): number {
  demandNumber(value, 1e-15, 1e15, 'Value to round to a preferred one');
  const decade = 10 ** Math.floor(Math.log10(value));
  const steps = [0.1, 1, 10].flatMap((k) => SERIES[series].map((m) => tidy(m * decade * k)));
  const up = steps.find((s) => s >= value * (1 - 1e-6))!;
  const down = steps.findLast((s) => s <= value * (1 + 1e-6))!;
  if (way !== 'nearest') return way === 'up' ? up : down;
  return up / value < value / down ? up : down;
}

/** Rated powers of resistors that shops stock, W (common practice). */
export const RESISTOR_WATTS: readonly number[] = [0.125, 0.25, 0.5, 1, 2, 3, 5, 10];

/**
 * Power a resistor may turn to heat at a temperature, W: full up to 70 degrees C, then a straight line to zero at 155.
 * Source: a resistor maker's derating figure for the knee (read), the end from memory.
 * @throws RangeError for a rating outside 0..1000 W or a temperature outside -60..300 degrees C.
 */
export function resistorWattsAt(ratedW: number, tempC: number): number {
  demandNumber(ratedW, 0, 1000, 'Rated power in W');
  demandNumber(tempC, -60, 300, 'Surroundings in degrees C');
  return ratedW * Math.min(1, Math.max(0, (155 - tempC) / 85));
}
