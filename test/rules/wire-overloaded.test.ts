import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'wire-overloaded';

describe('wire carries more than it may', () => {
  it('the bench is in order', () => clean(bench(), RULE));

  it('6 A in 0.5 mm², which may carry 5 A at 60 °C', () => {
    const heaters = (areaMm2: number) =>
      fused('heaters')
        .zone('dash', { maxC: 60 })
        .set('fuse', { ratingA: 10 })
        .part('splice', 'splice', 'dash')
        .part('pad1', 'camera', 'dash', { typA: 3, nightA: 3, minV: 6 })
        .part('pad2', 'camera', 'dash', { typA: 3, nightA: 3, minV: 6 })
        .wire('fuse.2', 'splice.s', { lengthM: 0.5, areaMm2 }, 'there')
        .wire('splice.s', 'pad1.+', { lengthM: 0.1 })
        .wire('splice.s', 'pad2.+', { lengthM: 0.1 })
        .wire('pad1.-', 'ground.31', { lengthM: 0.5 })
        .wire('pad2.-', 'ground.31', { lengthM: 0.5 });
    const b = heaters(0.5);
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('there'), figures: { carries: 6, 'planning limit': 5 }, repairs: 1 });
    clean(heaters(0.75), RULE);
  });
});
