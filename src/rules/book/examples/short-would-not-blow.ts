import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera 8 m away on 0.5 mm². */
function camera(ratingA: number): Bench {
  return withCamera(fused('camera').set('fuse', { ratingA }).zone('desk', { kind: 'under-seat' }), {}, { zone: 'desk', lengthM: 8, areaMm2: 0.5 });
}

export const example: Example = {
  flagged: () => camera(10),
  clean: () => camera(2),
  inOrder: 'A short at the camera sends five times the rating through 2 A: it opens at once.',
  also: ['feed30', 'camera', 'ground'],
};
