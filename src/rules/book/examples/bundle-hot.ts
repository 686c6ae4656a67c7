import type { Bench } from '../bench.ts';
import { ground } from '../plans.ts';
import type { Example } from '../types.ts';

/** Four cameras on the run between seat and desk, a loaded wire for each; the first takes most. */
function bundle(firstMm2: number): Bench {
  const b = ground('bundle')
    .part('feed30', 'feed-30', 'seat', { sourceMinOhm: 0.005, sourceMaxOhm: 0.005 }, { owner: 'vehicle' })
    .part('far', 'chassis-ground', 'desk', { place: 'body-stud' });
  for (let i = 0; i < 4; i++) {
    const amp = i === 0 ? 4.9 : 3;
    b.part(`fuse${i}`, 'blade-fuse', 'seat', { ratingA: 5 })
      .part(`camera${i}`, 'camera', 'desk', { minV: 3, typA: amp, nightA: amp })
      .wire('feed30.out', `fuse${i}.1`, { lengthM: 0.1 })
      .wire(`fuse${i}.2`, `camera${i}.+`, { areaMm2: i === 0 ? firstMm2 : 0.75 })
      .wire(`camera${i}.-`, 'far.31', { lengthM: 0.3, areaMm2: 6 });
    // A camera whose picture goes nowhere is not finished, and advice waits for it.
    if (i > 0) b.wire(`camera${i}.video`, 'camera0.video', { lengthM: 0.3 });
  }
  return b;
}

export const example: Example = {
  flagged: () => bundle(0.75),
  clean: () => bundle(1.5),
  inOrder: '1.5 mm² stays cool among the others.',
  also: ['feed30', 'fuse1', 'camera1', 'fuse2', 'camera2', 'fuse3', 'camera3'],
};
