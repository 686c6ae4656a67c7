import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A second converter beside the first. */
const second = () =>
  bench()
    .part('second', 'step-down', 'seat')
    .wire('guard.out', 'second.in', { lengthM: 0.1 })
    .wire('second.gnd', 'converter.gnd', { lengthM: 0.1 })
    .set('computer', { feed: 'socket' });

export const example: Example = {
  flagged: () => second().wire('second.out', 'computer.vbus', { areaMm2: 1.5 }).wire('second.0v', 'computer.0v', { areaMm2: 1.5 }),
  clean: () =>
    second()
      .part('diode', 'diode', 'seat', { type: 'schottky-60v-5a' })
      .wire('second.out', 'diode.A', { lengthM: 0.1 })
      .wire('diode.K', 'computer.vbus', { lengthM: 0.1 }),
  inOrder: 'A diode keeps one from feeding back into the other.',
  also: ['converter', 'second'],
};
