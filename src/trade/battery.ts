/** The parked battery: how long it lasts, what it reads at rest. */
import { type Basis, demandNumber } from './basis.ts';

/** Self-discharge of a flooded battery per 30 days at 25 degrees C (from memory: 3 to 6 %; 4 % taken). */
export const SELF_DISCHARGE_PER_MONTH = 0.04;
/** Share that may be used so that the engine still starts: full down to 60 % (common practice). */
export const USABLE_SHARE = 0.4;

/** Most that lithium cells should see, stored or used, degrees C (cell makers' sheets, from memory). */
export const LITHIUM_MAX_C = 60;

/** Temperature at which self-discharge is stated, degrees C; it doubles with so many kelvin more (rule of thumb after Arrhenius, from memory). */
export const STATED_C = 25;
const DOUBLES_K = 10;

/**
 * Self-discharge as a current, A: stated at 25 degrees C, twice that per 10 K more, half per 10 K less.
 * @throws RangeError for a capacity outside 1..2000 Ah or a temperature outside -60..100 degrees C.
 */
export function selfDischargeA(ah: number, tempC = STATED_C): number {
  demandNumber(ah, 1, 2000, 'Battery capacity in Ah');
  demandNumber(tempC, -60, 100, 'Temperature of the battery in degrees C');
  return ((ah * SELF_DISCHARGE_PER_MONTH) / (30 * 24)) * 2 ** ((tempC - STATED_C) / DOUBLES_K);
}

/**
 * Days until a full battery is down to 60 %.
 * @param ah capacity, Ah (of one string: 24 V from two 100 Ah batteries in series is 100)
 * @param totalA everything together: the vehicle's own draw, the build's, and `selfDischargeA`
 * @returns days; Infinity when nothing is drawn
 * @throws RangeError for a capacity outside 1..2000 Ah or a draw outside 0..1000 A.
 */
export function parkedDays(ah: number, totalA: number): number {
  demandNumber(ah, 1, 2000, 'Battery capacity in Ah');
  demandNumber(totalA, 0, 1000, 'Parked draw in A');
  return (USABLE_SHARE * ah) / (24 * totalA);
}

/** Parked draws that count as high, A: a vehicle maker's service manual accepts 0.025..0.050 (read); limit 0.050. */
export const PARKED_LIMIT_A = 0.05;

export interface RestingRow {
  readonly share: number;
  readonly floodedV: number;
  readonly agmV: number;
}

/** Open-circuit volts of a rested 12 V battery. Flooded: a battery maker's service page at 26.7 degrees C (read); AGM from memory. */
export const RESTING: readonly RestingRow[] = [
  { share: 0, floodedV: 11.89, agmV: 11.8 },
  { share: 0.25, floodedV: 12.06, agmV: 12.0 },
  { share: 0.5, floodedV: 12.24, agmV: 12.35 },
  { share: 0.75, floodedV: 12.45, agmV: 12.65 },
  { share: 1, floodedV: 12.65, agmV: 12.85 },
];
export const RESTING_BASIS: Readonly<Record<'flooded' | 'agm', Basis>> = { flooded: 'read', agm: 'from memory' };

/** State of charge 0..1 from a rested reading, straight lines between the rows. @throws RangeError outside 0..40 V or for another system. */
export function stateOfCharge(restV: number, type: 'flooded' | 'agm', systemV: number): number {
  demandNumber(restV, 0, 40, 'Resting battery voltage in V');
  demandNumber(systemV, 12, 24, 'System voltage in V');
  const v = (restV * 12) / systemV;
  const at = (row: RestingRow): number => (type === 'flooded' ? row.floodedV : row.agmV);
  const i = RESTING.findIndex((row) => at(row) >= v);
  if (i === 0) return 0;
  if (i < 0) return 1;
  const a = RESTING[i - 1]!;
  const b = RESTING[i]!;
  return a.share + ((b.share - a.share) * (v - at(a))) / (at(b) - at(a));
}
