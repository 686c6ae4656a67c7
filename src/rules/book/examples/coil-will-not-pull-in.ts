import { plainRelay } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => plainRelay({ pullInV: 9.6 }),
  clean: () => plainRelay({ pullInV: 7.2 }),
  inOrder: '7.2 V cold are 9.8 V hot, and nearly 11 V are there.',
  also: ['fuse', 'senseFuse', 'guard', 'converter'],
};
