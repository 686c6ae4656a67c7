import { bench } from '../plans.ts';
import { straight } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => straight('75r'),
  clean: () => bench(),
  inOrder: 'Permanent 30 carries the computer; a relay held by ignition lets go when it has stopped.',
  also: ['retained', 'feed30', 'feed15', 'senseFuse', 'fuse', 'guard', 'converter', 'computer'],
};
