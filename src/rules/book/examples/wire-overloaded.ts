import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** Two cameras with heated glass, 3 A each, on one wire. */
export function heaters(areaMm2: number): Bench {
  return fused('heaters')
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
}

export const example: Example = {
  flagged: () => heaters(0.5),
  clean: () => heaters(0.75),
  inOrder: '0.75 mm² may carry 7.5 A.',
  also: ['feed30', 'splice', 'pad1', 'pad2'],
};
