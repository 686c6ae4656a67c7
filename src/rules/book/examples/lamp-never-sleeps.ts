import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A lamp with its resistor on one of the lines. */
function lamp(from: 'fuse.2' | 'senseFuse.2'): Bench {
  return bench()
    .part('lampR', 'resistor', 'dash', { ohm: 680, ratedW: 0.5 })
    .part('lamp', 'led', 'dash')
    .wire(from, 'lampR.1', { lengthM: 0.2 })
    .wire('lampR.2', 'lamp.A', { lengthM: 0.1 })
    .wire('lamp.K', 'ground.31', { lengthM: 0.3 });
}

export const example: Example = {
  flagged: () => lamp('fuse.2'),
  clean: () => lamp('senseFuse.2'),
  inOrder: 'The lamp hangs on a line that falls with the key.',
  also: ['feed30', 'fuse', 'feed15', 'senseFuse', 'lampR', 'ground'],
};
