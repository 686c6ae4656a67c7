import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** The bench whose return goes to the battery's negative post itself. */
function onPost(batterySensor: 'yes' | 'no'): Bench {
  return bench('on the post', { batterySensor }).cut('return').wire('converter.gnd', 'battery.-', { lengthM: 3.5 }, 'return');
}

export const example: Example = {
  flagged: () => onPost('yes'),
  clean: () => onPost('no'),
  inOrder: 'This vehicle counts nothing at the post.',
  also: ['battery', 'strap', 'guard', 'converter'],
};
