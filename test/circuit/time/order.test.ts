import { describe, it } from 'vitest';
import type { Element } from '../../../src/circuit/index.ts';
import { near, ohms } from '../solved.ts';
import { capacitor, follow, inductor, source } from './timed.ts';

/** Errors at the end of a run with equal steps, halved again and again. */
function errors(elements: readonly Element[], charge: ReadonlyMap<string, number>, untilS: number, node: string, exact: number): number[] {
  return [50, 100, 200, 400].map((steps) => Math.abs(follow(elements, { untilS, charge, fixedStepS: untilS / steps }).last(node) - exact));
}

describe('the method is of second order: half the step, a quarter of the error', () => {
  // Expected ratio 4: Bank et al., IEEE Trans. CAD 4, 1985 (from memory); closed forms as in any text.
  const ratios = (list: readonly number[]): number[] => list.slice(1).map((e, k) => list[k]! / e);

  it('for a discharge', () => {
    const at = [ohms('r', 'c', '0', 99.9999), capacitor('c', 'c', '0', 1e-3, 1e-4)];
    const exact = 10 * (1 - 1e-6) * Math.exp(-5);
    for (const ratio of ratios(errors(at, new Map([['c', 10]]), 0.5, 'c', exact))) near(ratio, 4, 0.1);
  });

  it('for a ringing circuit', () => {
    const R = 2;
    const at = [source('short', 'a', 0, 0.5 * R), inductor('l', 'a', 'm', 1e-3, 0.5 * R), capacitor('c', 'm', '0', 1e-5)];
    const a = (R + 1e-4) / 2e-3;
    const w = Math.sqrt(1e8 - a * a);
    const t = 1e-3;
    // Inner volts, and the current through the smallest series resistance that an element has.
    const inner = 10 * Math.exp(-a * t) * (Math.cos(w * t) + (a / w) * Math.sin(w * t));
    const amp = -(10 / (w * 1e-3)) * Math.exp(-a * t) * Math.sin(w * t);
    for (const ratio of ratios(errors(at, new Map([['c', 10]]), t, 'm', inner + 1e-4 * amp))) near(ratio, 4, 0.15);
  });

  it('for a constant power, whose slope is negative', () => {
    const at: readonly Element[] = [capacitor('c', 'c', '0', 0.01), { kind: 'power', id: 'p', a: 'c', b: '0', watt: 6, minV: 4 }];
    // C V dV/dt = -P: V = sqrt(V0^2 - 2 P t / C); the drop over 0.1 mohm is 0.06 mV and counts.
    const reference = follow(at, { untilS: 0.14, charge: new Map([['c', 16]]), fixedStepS: 0.14 / 6400 }).last('c');
    near(reference, Math.sqrt(256 - 168), 2e-5);
    for (const ratio of ratios(errors(at, new Map([['c', 16]]), 0.14, 'c', reference))) near(ratio, 4, 0.15);
  });
});

it('kills what is much faster than the step and does not ring: L-stable', () => {
  // tau = 10 us, steps of 10 ms: the trapezoidal rule alone would swing from +12 to -12 V for ever.
  const at = (_: unknown, t: number): readonly Element[] => [source('feed', 'in', t > 0.05 ? 12 : 0, 0.01), capacitor('c', 'in', '0', 1e-3)];
  const { trace, v } = follow(at, { untilS: 0.1, fixedStepS: 0.01 }, { breaks: [0.05] });
  trace.tS.forEach((t, k) => {
    // 0.6 % of the swing is left after a step of 1000 time constants, its square after two.
    if (t > 0.055) near(v('in')[k]!, 12, t < 0.065 ? 0.01 : 1e-4);
  });
});
