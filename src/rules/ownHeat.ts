import type { Facts } from '../analysis/factsTypes.ts';
import { junctionC } from '../trade/formulas.ts';
import { type Converter, outputA } from './rails.ts';

/** What a converter turns to heat, W. */
export function lossW(volt: number, amp: number, eta: number): number {
  return volt * amp * (1 / eta - 1);
}

/** What a converter or linear regulator turns to heat with all that hangs on it, W, and its hottest spot in its place while the engine runs, degrees C. */
export function ownHeat(facts: Facts, c: Converter): { readonly watt: number; readonly hotC: number } {
  const { s, runningMaxC } = c.view;
  const { heatA } = outputA(facts, c);
  const watt =
    c.view.kind.kind === 'linear-regulator'
      ? Math.max(0, facts.corners.hiV - s.num('setV')) * heatA + facts.corners.hiV * s.num('quiescentA')
      : lossW(s.num('setV'), heatA, s.num('etaFull'));
  return { watt, hotC: junctionC(runningMaxC, watt, s.num('rthKPerW')) };
}
