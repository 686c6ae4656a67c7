/** What is left of an optocoupler's data-sheet figures at small currents and in the heat. */
import { demandNumber } from './basis.ts';
import type { OptoFacts } from './semiconductors.ts';

/** Least forward voltage of the LED: a hot LED of a low sample, V (common practice). */
export const OPTO_VF_MIN_V = 1.0;

/**
 * Share of the transfer ratio at a share of the current at which the sheet states it. From memory of typical curves: a half
 * at 3 mA and 0.8 at 5 mA of a part stated at 10 mA; between two steps the lower one stands.
 */
const CTR_STEPS: readonly (readonly [ampShare: number, left: number])[] = [
  [1, 1],
  [0.7, 0.9],
  [0.5, 0.8],
  [0.3, 0.5],
];

/** Share of the stated transfer ratio that is left at an LED current, 0..1. @throws RangeError for a negative current. */
export function ctrShare(o: Pick<OptoFacts, 'ctrTestA'>, amp: number): number {
  demandNumber(amp, 0, 1e6, 'LED current in A');
  const share = amp / o.ctrTestA;
  const step = CTR_STEPS.find(([least]) => share >= least * (1 - 1e-9));
  // Below the lowest step it falls in proportion.
  return step ? step[1] : (0.5 * share) / 0.3;
}

/** Share of the greatest LED current that is left at 85 degrees C: 50 mA falls to 20 mA (817 sheet, curve read by eye). */
const HOT = { tempC: 85, left: 0.4 } as const;

/** Greatest LED current at a temperature, A: all of it to 25 degrees C, then a straight line through the point at 85. */
export function ledMaxA(o: Pick<OptoFacts, 'maxA'>, tempC: number): number {
  demandNumber(tempC, -60, 300, 'Surroundings in degrees C');
  return o.maxA * Math.min(1, Math.max(0, 1 - ((1 - HOT.left) * (tempC - 25)) / (HOT.tempC - 25)));
}

/** Dark current at a temperature, A: doubles with each 10 K above its figure at 25 degrees C (common practice). */
export function darkA(o: Pick<OptoFacts, 'darkA'>, tempC: number): number {
  demandNumber(tempC, -60, 300, 'Surroundings in degrees C');
  return o.darkA * 2 ** ((tempC - 25) / 10);
}
