import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A screen on top of the dash, in the sun. */
const screen = (bearsMaxC: number): Bench =>
  bench()
    .part('screen', 'touch-display', 'dash', { bearsMaxC })
    .wire('converter.out', 'screen.5v', { lengthM: 2.5 })
    .wire('screen.0v', 'converter.0v', { lengthM: 2.5 })
    .zone('dash', { kind: 'dash-top' });

export const example: Example = {
  flagged: () => screen(50),
  clean: () => screen(85),
  inOrder: 'It bears 85 °C, as hot as it gets there.',
};
