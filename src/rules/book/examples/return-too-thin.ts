import type { Bench } from '../bench.ts';
import { ground } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera on 1.5 mm² whose ground wire has 0.5 mm². */
export function camera(ratingA: number): Bench {
  return ground('thin return')
    .part('feed30', 'feed-30', 'seat', {}, { owner: 'vehicle' })
    .part('far', 'chassis-ground', 'seat', { place: 'body-stud' })
    .part('fuse', 'blade-fuse', 'seat', { ratingA })
    .part('camera', 'camera', 'seat')
    .wire('battery.+', 'feed30.in', { owner: 'vehicle' })
    .wire('feed30.out', 'fuse.1', { lengthM: 0.1 })
    .wire('fuse.2', 'camera.+', { lengthM: 1, areaMm2: 1.5 })
    .wire('camera.-', 'far.31', { lengthM: 1, areaMm2: 0.5 }, 'return');
}

export const example: Example = {
  flagged: () => camera(7.5),
  clean: () => camera(5),
  inOrder: '0.5 mm² brings back what a 5 A fuse lets through.',
  also: ['feed30', 'fuse', 'camera', 'far'],
};
