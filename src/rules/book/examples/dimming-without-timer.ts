import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A display whose brightness a header pin sets. */
function dimmed(pin: number): Bench {
  return bench()
    .part('display', 'touch-display', 'seat')
    .wire('converter.out', 'display.5v', { lengthM: 0.5 })
    .wire('display.0v', 'converter.0v', { lengthM: 0.5 })
    .wire(`computer.${pin}`, 'display.bl', { lengthM: 0.5 });
}

export const example: Example = {
  flagged: () => dimmed(15),
  clean: () => dimmed(33),
  inOrder: 'GPIO 13 has a timer of the chip behind it.',
};
