import type { Bench } from '../bench.ts';
import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

/** A camera with night lamps that takes 1 A, behind a fuse. */
function camera(ratingA: number): Bench {
  return withCamera(fused('camera').set('fuse', { ratingA }), { typA: 1, nightA: 1 });
}

export const example: Example = {
  flagged: () => camera(1),
  clean: () => camera(2),
  inOrder: 'A 2 A fuse bears 1 A for hours, also in the heat.',
  also: ['feed30', 'camera', 'ground'],
};
