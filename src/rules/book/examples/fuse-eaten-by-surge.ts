import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** 4700 µF behind thick wires. */
function filled(ratingA: number): Bench {
  return bench().wireSet('feed', { areaMm2: 2.5 }).wireSet('return', { areaMm2: 2.5 }).set('fuse', { ratingA }).set('bulk', { farad: 4700e-6, esrOhm: 0.01 });
}

export const example: Example = {
  flagged: () => filled(3),
  clean: () => filled(5),
  inOrder: 'A 5 A fuse bears the same surge day after day.',
  also: ['feed30', 'relay', 'guard', 'bulk', 'converter'],
};
