import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().cut('clamp+').wire('clamp.K', 'feed30.out', { lengthM: 0.1 }),
  clean: () => bench(),
  inOrder: 'The clamp sits behind the fuse: when it fails short, the fuse opens.',
  also: ['feed30', 'fuse', 'relay', 'guard', 'converter', 'ground'],
};
