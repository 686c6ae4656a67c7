import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera of 2 A that wants 9 V, 5 m away. */
function camera(areaMm2: number): Bench {
  return withCamera(fused('camera').set('fuse', { ratingA: 5 }), { typA: 2, nightA: 2, minV: 9 }, { lengthM: 5, areaMm2 });
}

export const example: Example = {
  flagged: () => camera(0.5),
  clean: () => camera(1.5),
  inOrder: '1.5 mm² loses a third of it.',
  also: ['feed30', 'fuse', 'ground'],
};
