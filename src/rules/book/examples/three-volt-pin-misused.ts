import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => bench().wire('converter.out', 'computer.17', { lengthM: 0.2 }),
  clean: () => bench().part('sensor', 'bus-device', 'seat').wire('computer.17', 'sensor.+', { lengthM: 0.1 }).wire('sensor.-', 'computer.39', { lengthM: 0.1 }),
  inOrder: 'The pin feeds a sensor of some milliamps, and nothing feeds the pin.',
};
