import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withCamera(fused('short')).wire('fuse.2', 'ground.31', { lengthM: 1 }),
  clean: () => withCamera(fused('no short')),
  inOrder: 'From the feed to ground there is no way but through the camera.',
  also: ['feed30', 'camera'],
};
