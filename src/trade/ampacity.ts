/** What a wire may carry in a plan. One table; deliberately below the published ones (a test compares every cell). */
import { type Basis, demand, demandNumber } from './basis.ts';

interface PlanningRow {
  readonly areaMm2: number;
  /** Insulation class 85 degrees C and better. */
  readonly hardA: number;
  /** 70 degrees C PVC. */
  readonly pvcA: number;
  readonly basis: Basis;
}

/**
 * Planning figures I_z: thin-wall 105 degrees C insulation, 60 degrees C surroundings, up to three loaded wires together,
 * chosen so that a blade fuse of that value is the largest allowed. Basis: common practice, held below ISO 10133 table A.1,
 * 33 CFR 183.425 table 5 and ABYC E-11 with their own bundle and ambient factors.
 * 70 degrees C PVC has its own column because the published tables fall faster there than the heat balance says.
 */
export const PLANNING: readonly PlanningRow[] = [
  { areaMm2: 0.22, hardA: 2, pvcA: 1.5, basis: 'common practice' },
  { areaMm2: 0.35, hardA: 3, pvcA: 2.5, basis: 'common practice' },
  { areaMm2: 0.5, hardA: 5, pvcA: 4, basis: 'common practice' },
  { areaMm2: 0.75, hardA: 7.5, pvcA: 6, basis: 'common practice' },
  { areaMm2: 1, hardA: 10, pvcA: 8, basis: 'common practice' },
  { areaMm2: 1.5, hardA: 15, pvcA: 12, basis: 'common practice' },
  { areaMm2: 2.5, hardA: 20, pvcA: 15, basis: 'common practice' },
  { areaMm2: 4, hardA: 25, pvcA: 20, basis: 'common practice' },
  { areaMm2: 6, hardA: 35, pvcA: 30, basis: 'common practice' },
  { areaMm2: 10, hardA: 50, pvcA: 40, basis: 'calculated' },
  { areaMm2: 16, hardA: 70, pvcA: 55, basis: 'calculated' },
  { areaMm2: 25, hardA: 90, pvcA: 70, basis: 'calculated' },
];

/** Insulation classes the table serves, degrees C. An insulation between two classes counts as the lower. */
export const INSULATION_CLASSES_C: readonly number[] = [70, 85, 90, 100, 105, 125];

export interface PlanningLimit {
  /** Planning figure of the size at 60 degrees C with up to three loaded wires, A. */
  readonly baseA: number;
  /** Factor for insulation class and surroundings, 0..1. */
  readonly kT: number;
  /** Factor for the number of loaded wires together, 0.5..1. */
  readonly kN: number;
  /** baseA x kT x kN: the current this wire may carry for ever, and the largest fuse that protects it, A. */
  readonly limitA: number;
}

/**
 * The planning limit of one wire.
 * A size between two rows counts as the smaller; below 0.22 mm2 the first row is scaled by area; above 25 mm2 the last row holds.
 * Insulation below 70 degrees C has no figure in a vehicle: limit 0.
 * @param areaMm2 conductor area, mm2 (0.05..120)
 * @param insulationC class temperature of the insulation, degrees C (40..250)
 * @param zoneC hottest surroundings of the wire, degrees C (-60..200)
 * @param loadedWires wires that run together and each carry more than 30 % of their own limit, this one included (1 or more; 0 counts as 1)
 * @throws RangeError outside those ranges.
 */
export function planningLimit(areaMm2: number, insulationC: number, zoneC: number, loadedWires: number): PlanningLimit {
  demandNumber(areaMm2, 0.05, 120, 'Conductor area in mm2');
  demandNumber(insulationC, 40, 250, 'Insulation class in degrees C');
  demandNumber(zoneC, -60, 200, 'Zone temperature in degrees C');
  demand(Number.isInteger(loadedWires) && loadedWires >= 0, 'Number of loaded wires must be a whole number, 0 or more', loadedWires);
  const classC = INSULATION_CLASSES_C.findLast((c) => c <= insulationC);
  const baseA = baseCurrent(areaMm2, classC === 70);
  const kT = classC === undefined ? 0 : temperatureFactor(classC, zoneC);
  const kN = bundleFactor(loadedWires);
  return { baseA, kT, kN, limitA: baseA * kT * kN };
}

function baseCurrent(areaMm2: number, pvc: boolean): number {
  const first = PLANNING[0]!;
  // 1e-9: an area that arrives through unit conversion must still find its own row.
  const row = PLANNING.findLast((r) => r.areaMm2 <= areaMm2 * (1 + 1e-9));
  const figure = (row ?? first)[pvc ? 'pvcA' : 'hardA'];
  return row ? figure : (figure * areaMm2) / first.areaMm2;
}

/**
 * k_T = sqrt(max(0, T_ins - T_zone) / (105 - 60)), capped at 1: steady heat balance against the 105 degrees C, 60 degrees C
 * figures of the table (calculated). 70 degrees C PVC at 60 degrees C: 0.47; 105 degrees C at 70 degrees C: 0.88.
 */
export function temperatureFactor(insulationC: number, zoneC: number): number {
  return Math.min(1, Math.sqrt(Math.max(0, insulationC - zoneC) / 45));
}

/**
 * k_n for loaded wires together: 1 up to three, 0.8 to six, 0.7 to nine, 0.6 to twenty-four, 0.5 above.
 * Source: 0.8 and 0.7 US electrical code 2014 table 310.15(B)(3)(a) (read); the rest common practice.
 */
export function bundleFactor(loadedWires: number): number {
  if (loadedWires <= 3) return 1;
  if (loadedWires <= 6) return 0.8;
  if (loadedWires <= 9) return 0.7;
  return loadedWires <= 24 ? 0.6 : 0.5;
}

/**
 * A wire that carries no more than this share of its own limit does not count as loaded.
 * Source: note to BS 7671 table 4C1, read in a quotation.
 */
export const LOADED_SHARE = 0.3;
