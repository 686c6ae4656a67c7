import type { Bench } from '../bench.ts';
import { straight } from '../plansSense.ts';
import type { Example } from '../types.ts';

/** A button that is to start the computer again, from a header pin to 0 V. */
function button(pin: number): Bench {
  return straight('30')
    .part('button', 'push-button', 'seat')
    .wire(`computer.${pin}`, 'button.1', { lengthM: 0.2 })
    .wire('button.2', 'computer.39', { lengthM: 0.2 })
    .set('computer', { wakes: 'gpio3' });
}

export const example: Example = {
  flagged: () => button(37),
  clean: () => button(5),
  inOrder: 'The button is on GPIO 3, the pin that wakes.',
  also: ['button'],
};
