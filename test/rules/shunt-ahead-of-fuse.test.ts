import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'shunt-ahead-of-fuse';

describe('clamp or capacitor ahead of the fuse', () => {
  it('behind the fuse is in order, and so is a reverse diode behind the sense resistor', () => clean(bench(), RULE));

  it('a clamp crimped in at the radio plug', () => {
    const b = bench().cut('clamp+').wire('clamp.K', 'feed30.out', { lengthM: 0.1 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('clamp'), repairs: 1 });
  });

  it('a capacitor and a diode there are no better', () => {
    const b = bench()
      .part('early', 'capacitor', 'dash')
      .part('across', 'diode', 'dash', { type: '1n4007' })
      .wire('early.+', 'fuse.1', { lengthM: 0.1 })
      .wire('early.-', 'ground.31', { lengthM: 0.1 })
      .wire('across.K', 'feed30.out', { lengthM: 0.1 })
      .wire('across.A', 'ground.31', { lengthM: 0.1 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('early'), repairs: 1 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('across'), repairs: 1 });
  });
});
