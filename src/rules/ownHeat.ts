import type { Facts } from '../analysis/factsTypes.ts';
import { junctionC } from '../trade/formulas.ts';
import { type Converter, outputA, vehicleRail } from './rails.ts';

/** What a converter turns to heat, W. */
export function lossW(volt: number, amp: number, eta: number): number {
  return volt * amp * (1 / eta - 1);
}

/** The most that stands at a converter's input while it works, V: the alternator's upper limit, or what another converter or a resistor leaves. */
export function inputMostV(facts: Facts, c: Converter): number {
  if (vehicleRail(facts).has(c.inKey)) return facts.corners.hiV;
  const feeder = facts.sourcesFor(c.inKey).find((s) => s.source.kind === 'converter' && s.view !== c.view)?.view;
  const over = 1 + (feeder?.kind.kind === 'step-down' ? feeder.s.num('setTol') : 0);
  const minus = `${c.view.part.id}.${c.load.minus}`;
  return over * Math.max(0, ...facts.solved.map((r) => facts.across(c.inKey, minus, r.state, r.band) ?? 0));
}

/** What a converter or linear regulator turns to heat with all that hangs on it, W, and its hottest spot in its place while the engine runs, degrees C. */
export function ownHeat(facts: Facts, c: Converter): { readonly watt: number; readonly hotC: number } {
  const { s, runningMaxC } = c.view;
  const { heatA } = outputA(facts, c);
  const watt =
    c.view.kind.kind === 'linear-regulator'
      ? Math.max(0, inputMostV(facts, c) - s.num('setV')) * heatA + inputMostV(facts, c) * s.num('quiescentA')
      : lossW(s.num('setV'), heatA, s.num('etaFull'));
  return { watt, hotC: junctionC(runningMaxC, watt, s.num('rthKPerW')) };
}
