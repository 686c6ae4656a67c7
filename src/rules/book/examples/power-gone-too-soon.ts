import { bench } from '../plans.ts';
import { onIgnition } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => onIgnition(),
  clean: () => bench(),
  inOrder: 'A hold relay keeps the permanent feed up for 90 s after key-off.',
  also: ['feed30', 'feed15', 'senseFuse', 'fuse', 'guard', 'converter', 'computer'],
};
