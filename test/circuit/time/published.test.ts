import { describe, expect, it } from 'vitest';
import { near, ohms } from '../solved.ts';
import { capacitor, follow, source } from './timed.ts';

/** Figures that others have printed, run in time. */
const FINE = { absV: 1e-4, relative: 1e-5 };

/** Time at which volts first reach a level, by a straight line between the steps, s. */
function reachedS(tS: Float64Array, volts: Float64Array, level: number): number {
  const rises = volts.at(-1)! > level;
  const k = volts.findIndex((v, n) => n > 0 && (rises ? v >= level : v <= level));
  const share = (level - volts[k - 1]!) / (volts[k]! - volts[k - 1]!);
  return tS[k - 1]! + share * (tS[k]! - tS[k - 1]!);
}

describe('printed figures', () => {
  it('57.1 µF carry 100 W for 20 ms from 400 V to 300 V (knowledge article on buffer modules, read)', () => {
    const open = (_: unknown, t: number) => [
      source('feed', 'in', 400),
      ohms('contact', 'in', 'a', t < 0.001 ? 0.001 : Number.POSITIVE_INFINITY),
      capacitor('c', 'a', '0', 57.142857e-6),
      { kind: 'power' as const, id: 'load', a: 'a', b: '0', watt: 100, minV: 50 },
    ];
    const { trace, v } = follow(open, { untilS: 0.024, ...FINE }, { breaks: [0.001] });
    expect(trace.outcome).toBe('done');
    near(reachedS(trace.tS, v('a'), 300) - 0.001, 0.02, 1e-3);
  });

  it('a bus line rises from 30 % to 70 % in 0.8473 RC (bus specification UM10204 section 7.1, read)', () => {
    const bus = [source('feed', 'in', 3.3), ohms('pull', 'in', 'line', 2200), capacitor('line', 'line', '0', 100e-12)];
    const rcS = 2200 * 100e-12;
    const { trace, v } = follow(bus, { untilS: 5 * rcS, charge: new Map([['line', 0]]), ...FINE });
    near((reachedS(trace.tS, v('line'), 0.7 * 3.3) - reachedS(trace.tS, v('line'), 0.3 * 3.3)) / rcS, 0.8473, 1e-3);
  });

  it('100 µF behind 20 kΩ at 40 V reach 18 V after 1.2 s (public homework answer, read; printed to two digits)', () => {
    const slow = [source('feed', 'in', 40), ohms('r', 'in', 'c', 20_000), capacitor('c', 'c', '0', 100e-6)];
    const { trace, v } = follow(slow, { untilS: 5, charge: new Map([['c', 0]]), ...FINE });
    expect(Math.abs(reachedS(trace.tS, v('c'), 18) - 1.2)).toBeLessThan(0.01);
  });
});
