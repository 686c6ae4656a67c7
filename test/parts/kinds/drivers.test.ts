import { describe, expect, it } from 'vitest';
import { lowSideDriver } from '../../../src/parts/kinds/low-side-driver.ts';
import type { Band } from '../../../src/plan/types.ts';
import { ohms, solveBench, source } from '../bench.ts';
import { behave, element, settings, situation } from '../situation.ts';

/** Does the transistor switch with so many volts at its input? */
function on(typed: Record<string, string | number>, inV: number, band: Band): boolean {
  const device = lowSideDriver.behave(settings(lowSideDriver, typed), situation({ band })).devices![0]!;
  return device.wants({ volts: (n) => (n === 'in' ? inV : 0), amps: () => 0, on: () => false }, false);
}

describe('low-side driver', () => {
  // Logic-level MOSFET sheets state their resistance at 2.5 V; ordinary ones have a threshold of 2 V to 4 V (from memory).
  it('for logic: a 3.3 V pin switches it at every corner, and 0.4 V, a low pin at its worst, at none', () => {
    for (const band of ['low', 'typical', 'high'] as const) {
      expect(on({}, 3.135, band)).toBe(true);
      expect(on({}, 0.4, band)).toBe(false);
    }
  });

  it('ordinary MOSFET: 3.3 V do not switch it, 10 V do', () => {
    expect(on({ fullV: 10 }, 3.3, 'low')).toBe(false);
    expect(on({ fullV: 10 }, 10.5, 'low')).toBe(true);
  });

  it('bipolar: from 0.9 V for certain, from 0.55 V perhaps (junction of 0.55 V to 0.9 V, textbooks)', () => {
    expect(on({ type: 'bipolar' }, 0.7, 'low')).toBe(false);
    expect(on({ type: 'bipolar' }, 0.7, 'high')).toBe(true);
    expect(on({ type: 'bipolar' }, 1, 'low')).toBe(true);
  });

  it('bipolar: (2.6 V − 0.7 V) / 1 kΩ = 1.9 mA into the base', () => {
    const b = solveBench([
      source('pin', 'in', '0', 2.6),
      ohms('g', 'gnd', '0', 0.001),
      ohms('o', 'out', '0', 10),
      ...behave(lowSideDriver, { type: 'bipolar' }).elements,
    ]);
    expect(b.amps('base')).toBeCloseTo(0.0019, 4);
  });

  it('off it is open; its input rests at ground', () => {
    expect(element(behave(lowSideDriver, {}), 'switch', 'resistor').ohm).toBe(Number.POSITIVE_INFINITY);
    const b = solveBench([source('v', 'out', '0', 12, 100), ohms('g', 'gnd', '0', 0.001), ...behave(lowSideDriver, {}).elements]);
    expect(b.volts('in')).toBeCloseTo(0, 3);
    expect(b.volts('out')).toBeCloseTo(12, 3);
  });
});
