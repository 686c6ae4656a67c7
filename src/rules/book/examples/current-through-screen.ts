import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A display whose picture lead is its only way home. */
function shown(): Bench {
  return bench()
    .part('display', 'touch-display', 'seat', { typA: 0.9, peakA: 0.9 })
    .wire('converter.out', 'display.5v', { lengthM: 0.3, areaMm2: 1.5 })
    .wire('computer.video', 'display.video', { lengthM: 1 });
}

export const example: Example = {
  flagged: () => shown(),
  clean: () => shown().wire('display.0v', 'converter.0v', { lengthM: 0.3, areaMm2: 1.5 }),
  inOrder: 'The display has a ground wire of its own.',
  also: ['converter'],
};
