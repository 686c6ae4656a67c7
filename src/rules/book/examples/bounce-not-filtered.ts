import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A button, and how long the program waits before it believes it. */
const button = (inputFilterS: number): Bench =>
  bench().part('button', 'push-button', 'seat').wire('button.1', 'computer.29').wire('button.2', 'computer.30').set('computer', { inputFilterS });

export const example: Example = {
  flagged: () => button(0),
  clean: () => button(0.02),
  inOrder: 'The program looks again after 20 ms.',
};
