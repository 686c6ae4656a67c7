import { bench } from '../plans.ts';
import { straight, withIgnition } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => withIgnition(straight('30')),
  clean: () => bench(),
  inOrder: 'A relay that the key works takes everything off the battery.',
  also: ['feed30', 'fuse', 'guard', 'converter', 'computer'],
};
