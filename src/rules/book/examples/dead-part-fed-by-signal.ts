import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A display on the computer's picture lead, fed from this converter. */
function shown(converter: string): Bench {
  return bench()
    .part('other', 'step-down', 'seat')
    .part('display', 'touch-display', 'seat')
    .wire('fuse.2', 'other.in', { lengthM: 2.1 })
    .wire('other.gnd', 'converter.gnd', { lengthM: 0.2 })
    .wire(`${converter}.out`, 'display.5v', { lengthM: 0.5 })
    .wire('display.0v', `${converter}.0v`, { lengthM: 0.5 })
    .wire('computer.video', 'display.video', { lengthM: 0.5 });
}

export const example: Example = {
  flagged: () => shown('other'),
  clean: () => shown('converter'),
  inOrder: 'Display and computer have one 5 V supply and go off together.',
  also: ['converter', 'other', 'relay'],
};
