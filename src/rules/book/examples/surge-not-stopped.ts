import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('clamp', { standoffV: 24, brMinV: 26.7, brMaxV: 29.5, clampV: 38.9, peakA: 15.4 }),
  clean: () => bench(),
  inOrder: 'A clamp for 33 V rests through a jump start of 26 V, and the converter stands 60 V.',
  also: ['fuse', 'relay', 'guard', 'converter', 'ground'],
};
