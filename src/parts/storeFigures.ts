import type { Settings } from './types.ts';

/** A cell's share strays by so much although balancers hold it, at most (common practice, no source). */
export const BALANCED_STRAY = 0.05;
/** Above its rated temperature a cell stands less: 2.3 V instead of 2.7 V up to 85 degrees C (a 2.7 V cell's data sheet, read). */
const HOT = { share: 2.3 / 2.7, mostC: 85 } as const;

/** Capacitance of a bank of cells in series, new and at its nominal figure, F. */
export function bankFarad(s: Settings): number {
  return s.num('cellFarad') / cellsOf(s);
}

/** Rated voltage of the bank, V: every cell at its rating. */
export function bankV(s: Settings): number {
  return s.num('cellV') * cellsOf(s);
}

/** Series resistance of the bank when new, ohm. */
export function bankOhm(s: Settings): number {
  return s.num('esrOhm') * cellsOf(s);
}

/** Energy at a voltage across the bank, new and at its nominal figure, J. */
export function bankJoule(s: Settings, volt: number): number {
  return 0.5 * bankFarad(s) * volt ** 2;
}

/**
 * Most that one cell gets of `totalV` across the bank, V. Without balancing the smallest cell of an otherwise large lot
 * takes V x (1/C_min) / (1/C_min + (n - 1)/C_max).
 */
export function worstCellV(s: Settings, totalV: number): number {
  const n = cellsOf(s);
  if (n === 1) return totalV;
  if (s.flag('balanced')) return (totalV / n) * (1 + BALANCED_STRAY);
  const least = 1 / (1 - s.num('tolDown'));
  const most = 1 / (1 + s.num('tolUp'));
  return (totalV * least) / (least + (n - 1) * most);
}

/** Most that a cell stands at that temperature, V; 0 where it is not rated at all. */
export function cellLimitV(s: Settings, tempC: number): number {
  if (tempC <= s.num('ratedC')) return s.num('cellV');
  return tempC <= Math.max(HOT.mostC, s.num('ratedC')) ? s.num('cellV') * HOT.share : 0;
}

/** Cells in series, whole. */
export function cellsOf(s: Settings): number {
  return Math.max(1, Math.round(s.num('cells')));
}
