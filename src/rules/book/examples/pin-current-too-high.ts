import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A red LED on an output pin over its resistor. */
function lamp(ohm: number): Bench {
  return bench()
    .part('lampR', 'resistor', 'seat', { ohm })
    .part('lamp', 'led', 'seat')
    .wire('computer.29', 'lampR.1', { lengthM: 0.05 })
    .wire('lampR.2', 'lamp.A', { lengthM: 0.05 })
    .wire('lamp.K', 'computer.39', { lengthM: 0.1 });
}

export const example: Example = {
  flagged: () => lamp(180),
  clean: () => lamp(680),
  inOrder: '680 Ω keep the lamp to 2 mA, which any pin gives.',
  also: ['lamp', 'lampR'],
};
