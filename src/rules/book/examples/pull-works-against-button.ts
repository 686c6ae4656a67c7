import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A button from a header pin to 0 V, by which the computer stops. */
function button(pin: number, senseGpio: number): Bench {
  return bench()
    .set('computer', { senseGpio })
    .part('button', 'push-button', 'seat')
    .wire(`computer.${pin}`, 'button.1', { lengthM: 0.2 })
    .wire('button.2', 'computer.39', { lengthM: 0.2 });
}

export const example: Example = {
  flagged: () => button(15, 22),
  clean: () => button(29, 5),
  inOrder: 'GPIO 5 is pulled up from power-on.',
};
