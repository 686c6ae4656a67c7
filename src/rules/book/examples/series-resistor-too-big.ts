import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A button over a resistor, with the pin's own pull-up. */
function button(ohm: number): Bench {
  return bench()
    .part('button', 'push-button', 'seat')
    .part('series', 'resistor', 'seat', { ohm })
    .wire('computer.29', 'series.1', { lengthM: 0.05 })
    .wire('series.2', 'button.1', { lengthM: 0.2 })
    .wire('button.2', 'computer.39', { lengthM: 0.2 })
    .set('computer', { gpio5Mode: 'in-up' });
}

export const example: Example = {
  flagged: () => button(22_000),
  clean: () => button(1000),
  inOrder: '1 kΩ against the pull-up leave a tenth of a volt.',
  also: ['button', 'series'],
};
