import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera whose picture goes over a lead of that kind and length. */
const seen = (link: string, lengthM: number): Bench =>
  bench()
    .part('screen', 'touch-display', 'seat')
    .part('camera', 'camera', 'desk', { link })
    .wire('converter.out', 'screen.5v')
    .wire('screen.0v', 'converter.0v')
    .wire('fuse.2', 'camera.+', { lengthM: 7, areaMm2: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 7, areaMm2: 1 })
    .wire('camera.video', 'screen.video', { lengthM });

export const example: Example = {
  flagged: () => seen('ribbon', 2),
  clean: () => seen('composite', 14),
  inOrder: 'A composite picture goes 14 m over coaxial lead.',
};
