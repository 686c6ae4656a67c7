import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera on 0.5 mm². */
function camera(ratingA: number): Bench {
  return withCamera(fused('camera').set('fuse', { ratingA }), {}, { areaMm2: 0.5 });
}

export const example: Example = {
  flagged: () => camera(10),
  clean: () => camera(3),
  inOrder: 'A 3 A fuse opens long before 0.5 mm² gets hot.',
  also: ['feed30', 'camera', 'ground'],
};
