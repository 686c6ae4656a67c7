import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** The computer in a place where an airbag unfolds, or not. */
const placed = (bag: 'yes' | 'no'): Bench => bench().zone('seat', { bag });

export const example: Example = {
  flagged: () => placed('yes'),
  clean: () => placed('no'),
  inOrder: 'Looked at: no airbag and no belt tensioner there.',
  also: ['computer'],
};
