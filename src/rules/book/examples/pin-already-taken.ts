import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A button from a header pin to 0 V. */
const button = (pin: number) =>
  bench().part('button', 'push-button', 'desk').wire('button.1', `computer.${pin}`, { lengthM: 0.3 }).wire('button.2', 'computer.39', { lengthM: 0.3 });

export const example: Example = {
  flagged: () => button(8),
  clean: () => button(29),
  inOrder: 'GPIO 5 (pin 29) belongs to nobody.',
  also: ['button'],
};
