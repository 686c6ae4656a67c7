import { withLatch } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withLatch().set('latch', { backstopS: 0 }),
  clean: () => withLatch(),
  inOrder: 'After five minutes the latch opens by itself, whatever the program does.',
  also: ['fuse', 'senseFuse', 'guard', 'converter', 'computer'],
};
