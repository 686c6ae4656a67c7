/** Copper conductors: sizes, resistance, gauge. SI units; areas in mm2, resistances in ohm and ohm per metre. */
import { type Basis, demand, demandNumber, logLog } from './basis.ts';

/** Resistivity of annealed copper at 20 degrees C, ohm mm2 / m. Source: IEC 60028 (read). */
export const COPPER_OHM_MM2_PER_M = 0.017241;
/** Temperature coefficient of copper at 20 degrees C, per kelvin. Source: IEC 60028 (from memory). */
export const COPPER_TEMP_COEFFICIENT = 0.00393;

export interface ConductorRow {
  readonly areaMm2: number;
  /** Class 5 (flexible, plain copper) maximum at 20 degrees C, milliohm per metre. */
  readonly milliohmPerM: number;
  readonly basis: Basis;
}

/**
 * Maximum resistance of flexible copper at 20 degrees C.
 * Source: IEC 60228 class 5 as printed by two cable-engineering pages and a cable maker (read, 0.5 mm2 and up);
 * 0.22 and 0.35 mm2 are not in that standard and follow automotive cable to ISO 6722-1 (from memory, the larger figures).
 */
export const CONDUCTORS: readonly ConductorRow[] = [
  { areaMm2: 0.22, milliohmPerM: 84.8, basis: 'from memory' },
  { areaMm2: 0.35, milliohmPerM: 54.4, basis: 'from memory' },
  { areaMm2: 0.5, milliohmPerM: 39.0, basis: 'read' },
  { areaMm2: 0.75, milliohmPerM: 26.0, basis: 'read' },
  { areaMm2: 1, milliohmPerM: 19.5, basis: 'read' },
  { areaMm2: 1.5, milliohmPerM: 13.3, basis: 'read' },
  { areaMm2: 2.5, milliohmPerM: 7.98, basis: 'read' },
  { areaMm2: 4, milliohmPerM: 4.95, basis: 'read' },
  { areaMm2: 6, milliohmPerM: 3.3, basis: 'read' },
  { areaMm2: 10, milliohmPerM: 1.91, basis: 'read' },
  { areaMm2: 16, milliohmPerM: 1.21, basis: 'read' },
  { areaMm2: 25, milliohmPerM: 0.78, basis: 'read' },
];

/** The sizes offered, mm2, rising. */
export const AREAS_MM2: readonly number[] = CONDUCTORS.map((row) => row.areaMm2);

const POINTS = CONDUCTORS.map((row) => [row.areaMm2, row.milliohmPerM / 1000] as const);

/**
 * Greatest resistance of one metre of flexible copper at a conductor temperature, ohm per metre.
 * Table sizes are exact; sizes between are interpolated on log-log paper, sizes beyond the ends keep the end row's allowance over rho / A.
 * @throws RangeError for an area outside 0.05..120 mm2 or a temperature outside -60..300 degrees C.
 */
export function ohmPerM(areaMm2: number, tempC: number): number {
  demandNumber(areaMm2, 0.05, 120, 'Conductor area in mm2');
  demandNumber(tempC, -60, 300, 'Conductor temperature in degrees C');
  return ohmPerM20(areaMm2) * copperTempFactor(tempC);
}

function ohmPerM20(areaMm2: number): number {
  const first = POINTS[0]!;
  const last = POINTS[POINTS.length - 1]!;
  if (areaMm2 <= first[0]) return (first[1] * first[0]) / areaMm2;
  if (areaMm2 >= last[0]) return (last[1] * last[0]) / areaMm2;
  return logLog(POINTS, areaMm2);
}

/** Resistance of copper at a temperature over that at 20 degrees C: 1 + 0.00393 (T - 20). */
export function copperTempFactor(tempC: number): number {
  return 1 + COPPER_TEMP_COEFFICIENT * (tempC - 20);
}

/**
 * Least resistance to reckon with, rho / A at 20 degrees C, ohm per metre: for surges, let-through and the greatest
 * short-circuit current, where the class 5 maximum would flatter.
 * @throws RangeError for an area outside 0.05..120 mm2.
 */
export function coldOhmPerM(areaMm2: number): number {
  demandNumber(areaMm2, 0.05, 120, 'Conductor area in mm2');
  return COPPER_OHM_MM2_PER_M / areaMm2;
}

/** Gauge numbers that the trade stocks, thick to thin. */
const EVEN_GAUGES = [2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30];

/**
 * Diameter of a solid AWG wire in mm: 0.127 x 92 ^ ((36 - n) / 39). Source: ASTM B258 (calculated).
 * @throws RangeError when the gauge is not a whole number from 0 to 40.
 */
export function awgDiameterMm(awg: number): number {
  demand(Number.isInteger(awg) && awg >= 0 && awg <= 40, 'AWG must be a whole number from 0 to 40', awg);
  return 0.127 * 92 ** ((36 - awg) / 39);
}

/** Area of an AWG wire in mm2, from its diameter. */
export function awgAreaMm2(awg: number): number {
  return (Math.PI / 4) * awgDiameterMm(awg) ** 2;
}

/**
 * The gauge to buy in place of a metric size, as `AWG 16`: the thinnest even gauge whose area is not more than 8 % below it.
 * Conversion charts differ by a whole size; this one errs to the thicker wire and gives the pairs of a vehicle maker's
 * wiring manual of 1998 (read) for 0.35 to 25 mm2.
 */
export function awgLabel(areaMm2: number): string {
  demandNumber(areaMm2, 0.05, 120, 'Conductor area in mm2');
  const fit = EVEN_GAUGES.findLast((awg) => awgAreaMm2(awg) >= 0.92 * areaMm2);
  return fit === undefined ? 'thicker than AWG 2' : `AWG ${fit}`;
}

/** The smallest offered size not below an area, mm2; null above the largest. */
export function nextAreaUp(areaMm2: number): number | null {
  return AREAS_MM2.find((area) => area >= areaMm2) ?? null;
}

/** Resistance that one end of a wire adds, ohm (common practice, no source). */
export const TERMINATION_OHM = { crimp: 0.002, plugNew: 0.005, plugAged: 0.01, screw: 0.002 } as const;

/** One bolted or welded joint of the body between neighbouring zones, ohm (common practice, no source). */
export const BODY_JOINT_OHM = 0.005;
