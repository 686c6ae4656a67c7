import { planningLimit } from '../trade/ampacity.ts';
import { AREAS_MM2, ohmPerM } from '../trade/conductors.ts';
import { BLADE_RATINGS_A, LOADING, tempFactor } from '../trade/fuses.ts';

/** Smallest blade fuse that holds a heating current in a place of that temperature, A; null when none does. */
export function smallestFuseA(heatA: number, zoneC: number): number | null {
  return BLADE_RATINGS_A.find((a) => heatA <= LOADING * a * tempFactor(zoneC)) ?? null;
}

/** Largest blade fuse that does not exceed a wire's planning limit, A; null when even the smallest does. */
export function largestFuseA(limitA: number): number | null {
  return [...BLADE_RATINGS_A].reverse().find((a) => a <= limitA) ?? null;
}

export interface WireNeed {
  /** Current the wire must stand for ever: the larger of its heating current and what protects it, A. */
  readonly amp: number;
  readonly insulationC: number;
  readonly zoneC: number;
  readonly loadedWires: number;
  /** Largest resistance per metre at working temperature that keeps the drop in its budget, ohm/m. */
  readonly maxOhmPerM: number;
  /** Smallest size one would use in this place, mm2. */
  readonly leastMm2: number;
}

/** Smallest stocked conductor that carries enough and drops little enough, mm2; the largest stocked when none does. */
export function smallestAreaMm2(need: WireNeed): { areaMm2: number; because: 'current' | 'drop' | 'strength' } {
  const hotC = Math.min(need.insulationC, need.zoneC + 20);
  const carries = (a: number): boolean => planningLimit(a, need.insulationC, need.zoneC, need.loadedWires).limitA >= need.amp;
  const drops = (a: number): boolean => ohmPerM(a, hotC) <= need.maxOhmPerM;
  const byCurrent = AREAS_MM2.find(carries) ?? AREAS_MM2[AREAS_MM2.length - 1]!;
  const byDrop = AREAS_MM2.find(drops) ?? AREAS_MM2[AREAS_MM2.length - 1]!;
  const areaMm2 = Math.max(byCurrent, byDrop, need.leastMm2);
  return { areaMm2, because: areaMm2 === byCurrent ? 'current' : areaMm2 === byDrop ? 'drop' : 'strength' };
}
