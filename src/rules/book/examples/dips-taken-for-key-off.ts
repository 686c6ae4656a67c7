import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().set('computer', { filterS: 0.4 }),
  clean: () => bench(),
  inOrder: 'The computer waits 3 s before it believes in key-off.',
  also: ['feed15', 'senseFuse', 'sense', 'opto'],
};
