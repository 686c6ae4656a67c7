import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** A load of 3 A on one ground point. */
function loaded(settings: Readonly<Record<string, string>>): Bench {
  return fused('loaded')
    .set('ground', settings)
    .part('camera', 'camera', 'dash', { typA: 3, nightA: 3 })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });
}

export const example: Example = {
  flagged: () => loaded({ place: 'painted-bolt' }),
  clean: () => loaded({ place: 'dash-stud' }),
  inOrder: 'A bare stud: 2 mΩ, and 6 mV at 3 A.',
  also: ['feed30', 'fuse', 'camera'],
};
