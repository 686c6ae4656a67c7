import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A resistor from 5 V to GPIO 5. */
const fromFive = () =>
  bench().part('top', 'resistor', 'seat', { ohm: 1200 }).wire('converter.out', 'top.1', { lengthM: 0.2 }).wire('top.2', 'computer.29', { lengthM: 0.2 });

export const example: Example = {
  flagged: () => fromFive().set('top', { ohm: 12_000 }),
  clean: () =>
    fromFive().part('low', 'resistor', 'seat', { ohm: 2000 }).wire('low.1', 'top.2', { lengthM: 0.05 }).wire('low.2', 'computer.39', { lengthM: 0.2 }),
  inOrder: '1.2 kΩ over 2 kΩ bring 5 V down to 3.2 V.',
  also: ['top', 'converter'],
};
