import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('relay', { contactA: 0.8 }),
  clean: () => bench(),
  inOrder: '30 A are printed on the contact.',
  also: ['fuse', 'senseFuse', 'guard'],
};
