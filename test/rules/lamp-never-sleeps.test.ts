import { describe, expect, it } from 'vitest';
import { clean, compute, findingsOf, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'lamp-never-sleeps';

/** An LED with its resistor between a line and ground. */
function lamp(from: 'fuse.2' | 'senseFuse.2', ohm: number): Bench {
  return bench()
    .part('lampR', 'resistor', 'dash', { ohm, ratedW: 0.5 })
    .part('lamp', 'led', 'dash')
    .wire(from, 'lampR.1', { lengthM: 0.2 })
    .wire('lampR.2', 'lamp.A', { lengthM: 0.1 })
    .wire('lamp.K', 'ground.31', { lengthM: 0.3 });
}

describe('a lamp or divider that never sleeps', () => {
  // Worked by hand: (12.9 − 2) V / 680 ohm = 16 mA.
  it('a switch lamp of 16 mA on permanent 30', () => {
    const b = lamp('fuse.2', 680);
    flagged(b, RULE, { level: 'advice', subject: b.id('lamp'), figures: { parked: 0.016 }, says: ['day and night'], repairs: 1 });
  });

  it('the same on the key', () => {
    clean(lamp('senseFuse.2', 680), RULE);
  });

  it('just either side of 1 mA', () => {
    clean(lamp('fuse.2', 12_000), RULE);
    const b = lamp('fuse.2', 10_000);
    flagged(b, RULE, { level: 'advice', subject: b.id('lamp'), repairs: 1 });
  });

  it('a divider is one finding', () => {
    const b = bench()
      .part('upper', 'resistor', 'dash', { ohm: 4700, ratedW: 0.5 })
      .part('lower', 'resistor', 'dash', { ohm: 1000 })
      .wire('fuse.2', 'upper.1', { lengthM: 0.2 })
      .wire('upper.2', 'lower.1', { lengthM: 0.1 })
      .wire('lower.2', 'ground.31', { lengthM: 0.3 });
    // 12.9 V / 5.7 kohm = 2.26 mA.
    flagged(b, RULE, { level: 'advice', subject: b.id('upper'), figures: { parked: 12.9 / 5700 }, repairs: 1 });
    expect(findingsOf(compute(b), RULE)).toHaveLength(1);
  });

  it('has nothing to say where there is none', () => {
    quiet(ground(), RULE);
  });
});
