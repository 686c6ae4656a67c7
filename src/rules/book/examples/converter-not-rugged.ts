import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('converter', { inMaxV: 24, absMaxV: 24 }),
  clean: () => bench(),
  inOrder: 'A converter of the 60 V class stands jump start and load dump.',
  also: ['guard', 'clamp', 'fuse'],
};
