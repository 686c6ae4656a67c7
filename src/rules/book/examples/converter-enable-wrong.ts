import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** The converter's enable input on the key. */
function keyed(enActive: 'low' | 'high'): Bench {
  return bench().set('converter', { enActive, enMaxV: 25 }).wire('senseFuse.2', 'converter.en', { lengthM: 2.2 });
}

export const example: Example = {
  flagged: () => keyed('low'),
  clean: () => keyed('high'),
  inOrder: 'This converter runs while its enable input is high.',
  also: ['feed15', 'senseFuse', 'fuse', 'guard', 'relay'],
};
