import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A plain relay in the supply that ignition pulls in. */
function supply(pullInV: number): Bench {
  return bench('plain relay')
    .without('relay')
    .part('k', 'relay', 'seat', { suppression: 'diode', pullInV })
    .wire('fuse.2', 'k.30', { lengthM: 2.1 })
    .wire('k.87', 'guard.in', { lengthM: 0.2 })
    .wire('senseFuse.2', 'k.86', { lengthM: 2.3 })
    .wire('k.85', 'converter.gnd', { lengthM: 0.3 });
}

export const example: Example = {
  flagged: () => supply(9.6),
  clean: () => supply(7.2),
  inOrder: '7.2 V cold are 9.8 V hot, and nearly 11 V are there.',
  also: ['fuse', 'senseFuse', 'guard', 'converter'],
};
