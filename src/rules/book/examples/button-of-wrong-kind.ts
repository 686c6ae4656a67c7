import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A button at the pin that wakes the computer. */
const wake = (latching: boolean): Bench =>
  bench().set('computer', { wakes: 'gpio3' }).part('button', 'push-button', 'seat', { latching }).wire('button.1', 'computer.5').wire('button.2', 'computer.9');

export const example: Example = {
  flagged: () => wake(true),
  clean: () => wake(false),
  inOrder: 'It springs back when the thumb leaves it.',
};
