import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** The key sensed over one resistor; the computer on permanent 30. */
function pulled(mode: 'in-up' | 'in-down'): Bench {
  return bench()
    .without('relay', 'opto', 'reverse', 'pull', 'sense')
    .wire('fuse.2', 'guard.in', { lengthM: 2.1 })
    .part('upper', 'resistor', 'seat', { ohm: 47_000 })
    .set('computer', { senseGpio: 16, senseActive: 'high-when-on', gpio16Mode: mode })
    .wire('senseFuse.2', 'upper.1', { lengthM: 2.2 })
    .wire('upper.2', 'computer.36', { lengthM: 0.2 });
}

export const example: Example = {
  flagged: () => pulled('in-up'),
  clean: () => pulled('in-down'),
  inOrder: 'Pulled down inside, the pin reads “key off” without its wire.',
  also: ['feed15', 'senseFuse', 'upper'],
};
