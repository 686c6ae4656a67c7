import { describe, expect, it } from 'vitest';
import { coilHeat } from '../../src/trade/coils.ts';
import { clean, flagged, quiet } from './harness.ts';
import { bench, plainRelay } from './plans.ts';

const RULE = 'coil-overheats';

describe('coil overheats at high supply', () => {
  // Cold and at its least resistance: 16² / (0.9 × 90 Ω) = 3.16 W. Warmed up, P = 3.16 W / (1 + 0.00393 (T − 20)).
  it('power and temperature settle together', () => {
    const { watt, hotC } = coilHeat({ volt: 16, ohm: 90, nominalV: 12, riseK: 52, aroundC: 85 });
    expect(watt).toBeCloseTo(16 ** 2 / (0.9 * 90 * (1 + 0.00393 * (hotC - 20))), 6);
    expect(hotC).toBeCloseTo(85 + (52 * 90 * watt) / 144, 6);
    // A relay maker's allowance of 2.2 W at 85 °C (from memory) is nearly used up.
    expect(watt).toBeGreaterThan(2);
    expect(watt).toBeLessThan(2.2);
  });

  it('a usual coil stands the place under the seat and behind the dash', () => {
    clean(plainRelay(), RULE);
    clean(plainRelay().zone('seat', { kind: 'dash' }), RULE);
  });

  // Engine bay, 105 °C: 15.9² / 81 Ω = 3.12 W = P (1.334 + 0.128 P): 1.97 W, 105 + 32.5 K/W × 1.97 W = 169 °C.
  it('in the engine bay it does not', () => {
    const b = plainRelay().zone('seat', { kind: 'engine-bay' });
    flagged(b, RULE, { level: 'fault', subject: b.id('k'), figures: { 'coil gets': 169, 'coil power': 1.97 }, repairs: 1 });
  });

  it('either side of 155 °C', () => {
    const { hotC } = coilHeat({ volt: 15.9, ohm: 90, nominalV: 12, riseK: 52, aroundC: 105 });
    clean(plainRelay({ coilMaxC: Math.ceil(hotC) + 2 }).zone('seat', { kind: 'engine-bay' }), RULE);
    const b = plainRelay({ coilMaxC: Math.floor(hotC) - 3 }).zone('seat', { kind: 'engine-bay' });
    flagged(b, RULE, { level: 'fault', subject: b.id('k') });
  });

  it('no plain coil, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
