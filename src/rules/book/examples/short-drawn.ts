import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withCamera(fused('short').set('fuse', { ratingA: 3 })).wire('fuse.2', 'ground.31', { lengthM: 1, areaMm2: 0.75 }),
  clean: () => withCamera(fused('no short').set('fuse', { ratingA: 3 })),
  inOrder: 'From the feed to ground there is no way but through the camera.',
  also: ['feed30', 'camera'],
};
