import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'bundle-hot';

/** Cameras on the run between seat and desk, each with a loaded wire out; the first takes `amp`. */
const bundle = (wires: number, amp: number, others = 3, firstMm2 = 0.75): Bench => {
  const b = ground('bundle')
    .part('feed30', 'feed-30', 'seat', { sourceMinOhm: 0.005, sourceMaxOhm: 0.005 }, { owner: 'vehicle' })
    .part('far', 'chassis-ground', 'desk', { place: 'body-stud' });
  for (let i = 0; i < wires; i++) {
    const a = i === 0 ? amp : others;
    b.part(`fuse${i}`, 'blade-fuse', 'seat', { ratingA: 5 })
      .part(`camera${i}`, 'camera', 'desk', { minV: 3, typA: a, nightA: a })
      .wire('feed30.out', `fuse${i}.1`, { lengthM: 0.1 })
      .wire(`fuse${i}.2`, `camera${i}.+`, { areaMm2: i === 0 ? firstMm2 : 0.75 }, `w${i}`)
      .wire(`camera${i}.-`, 'far.31', { lengthM: 0.3, areaMm2: 6 });
    // A camera whose picture goes nowhere is not finished, and advice waits for it.
    if (i > 0) b.wire(`camera${i}.video`, 'camera0.video', { lengthM: 0.3 });
  }
  return b;
};

describe('big bundle with a hard-worked wire', () => {
  it('four loaded wires together leave 80 % of 7.5 A (table 310.15(B)(3)(a), read); the aim is 80 % of that, 4.8 A', () => {
    const b = bundle(4, 4.9);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('w0'), figures: { carries: 4.9, 'planning limit': 6 }, repairs: 1 });
    clean(bundle(4, 4.7), RULE);
  });

  it('three are no bundle; wires that use less than 30 % of their limit do not count', () => {
    quiet(bundle(3, 4.9), RULE);
    quiet(bundle(4, 2.2, 2.2), RULE);
    quiet(bench(), RULE);
  });

  it('above the limit another rule speaks: 4.9 A over 0.5 mm², 5 A × 0.8', () => quiet(bundle(4, 4.9, 3, 0.5), RULE));
});
