import { describe, expect, it } from 'vitest';
import { clean, compute, factsOf, flagged, quiet } from './harness.ts';
import { type Bench, bench, fused } from './plans.ts';

const RULE = 'half-of-pair';

const middle = (amp: number, pair: string): Bench =>
  fused('harvester', { systemV: 24, batteryAh: 170 })
    .set('feed30', { pair })
    .part('camera', 'camera', 'dash', { typA: amp, nightA: amp })
    .wire('fuse.2', 'camera.+', { lengthM: 1 }, 'supply')
    .wire('camera.-', 'ground.31', { lengthM: 1 });

describe('12 V taken from half of a 24 V pair', () => {
  it('0.8 A from the middle, 10 h a day: 8 Ah a day', () => {
    const b = middle(0.8, 'half');
    flagged(b, RULE, { level: 'hazard', subject: b.id('feed30'), figures: { 'drawn from one battery': 0.8, 'imbalance in a day': 8 }, repairs: 1 });
  });

  it('both batteries, or an equaliser', () => {
    clean(middle(0.8, 'whole'), RULE);
    clean(middle(0.8, 'balanced'), RULE);
  });

  it('the camera sees half: 25.2 V / 2 at rest, and the repair’s converter gives 12 V', () => {
    const results = compute(middle(0.8, 'half'));
    const facts = factsOf(results);
    const v = facts.across(`${middle(0.8, 'half').id('camera')}.+`, `${middle(0.8, 'half').id('camera')}.-`, 'OFF_ASLEEP', 'typical')!;
    expect(v).toBeGreaterThan(12.0);
    expect(v).toBeLessThan(12.6);
  });

  it('a 12 V vehicle has no pair', () => quiet(bench(), RULE));
});
