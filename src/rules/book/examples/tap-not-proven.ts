import { fused, withCamera } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withCamera(fused('not measured').set('feed30', { proven: false })),
  clean: () => withCamera(fused('measured')),
  inOrder: 'The lead was measured with the key in each position.',
  also: ['fuse'],
};
