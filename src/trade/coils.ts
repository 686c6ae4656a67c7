/** What relay coils do to themselves. SI units; basis per figure. */

import { demandNumber } from './basis.ts';
import { copperTempFactor } from './conductors.ts';

/** A coil may have so much less resistance than printed (makers' sheets, ±10 %, from memory). */
const COIL_TOL = 0.1;
/** Coil resistance of economical 12 V relays, ohm (a relay maker's sheet, from memory). */
export const ECONOMY_COIL_OHM = 260;

/** One coil in its place. `riseK` is its rise at the nominal voltage and resistance, as sheets print it. */
export interface CoilInPlace {
  readonly volt: number;
  readonly ohm: number;
  readonly nominalV: number;
  readonly riseK: number;
  readonly aroundC: number;
}

/**
 * Power, W, and temperature, degrees C, that a coil ends at: hot copper takes less, so both settle together.
 * `T = around + (rise / P_nominal) P`, `P = V² / (0.9 R (1 + 0.00393 (T - 20)))`. Solved in closed form.
 */
export function coilHeat({ volt, ohm, nominalV, riseK, aroundC }: CoilInPlace): { readonly watt: number; readonly hotC: number } {
  demandNumber(ohm, 0.1, 1e6, 'Coil in ohm');
  demandNumber(nominalV, 0.1, 1e3, 'Coil voltage in V');
  const cold = volt ** 2 / (ohm * (1 - COIL_TOL));
  const kPerW = (riseK * ohm) / nominalV ** 2;
  const a = copperTempFactor(aroundC);
  const b = (copperTempFactor(120) - copperTempFactor(20)) / 100;
  if (kPerW === 0) return { watt: cold / a, hotC: aroundC };
  // P (a + b kPerW P) = cold
  const k = b * kPerW;
  const watt = (-a + Math.sqrt(a * a + 4 * k * cold)) / (2 * k);
  return { watt, hotC: aroundC + kPerW * watt };
}
