import type { Bench } from '../bench.ts';
import { fused } from '../plans.ts';
import type { Example } from '../types.ts';

/** A converter with its feed alone. */
function half(): Bench {
  return fused('no ground').part('converter', 'step-down', 'seat').wire('fuse.2', 'converter.in', { lengthM: 2 });
}

export const example: Example = {
  flagged: () => half(),
  clean: () => half().wire('converter.gnd', 'ground.31', { lengthM: 2 }),
  inOrder: 'Its ground leads to the ground point.',
  also: ['feed30', 'fuse', 'ground'],
};
