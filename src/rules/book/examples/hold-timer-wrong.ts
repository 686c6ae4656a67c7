import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('relay', { holdS: 30 }),
  clean: () => bench(),
  inOrder: '90 s, and even 10 % less is twice what a stop takes.',
  also: ['fuse', 'senseFuse', 'guard', 'converter', 'computer'],
};
