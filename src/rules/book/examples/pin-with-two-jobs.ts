import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A button on a pin of the computer that also has the key sensor. */
const button = (pin: number) =>
  bench().part('button', 'push-button', 'desk').wire('button.1', `computer.${pin}`, { lengthM: 0.3 }).wire('button.2', 'computer.39', { lengthM: 0.3 });

export const example: Example = {
  flagged: () => button(36),
  clean: () => button(29),
  inOrder: 'Each has a pin of its own.',
  also: ['button', 'opto'],
};
