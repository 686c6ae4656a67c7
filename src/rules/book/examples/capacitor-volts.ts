import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('bulk', { ratedV: 25 }),
  clean: () => bench(),
  inOrder: '50 V: a quarter more than the 35 V of a clamped load dump.',
  also: ['guard', 'converter'],
};
