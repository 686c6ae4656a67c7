import { straight } from '../plansSense.ts';
import type { Example } from '../types.ts';

export const example: Example = {
  flagged: () => straight('30').wire('converter.out', 'computer.17', { lengthM: 0.2 }),
  clean: () =>
    straight('30').part('sensor', 'bus-device', 'seat').wire('computer.17', 'sensor.+', { lengthM: 0.1 }).wire('sensor.-', 'computer.39', { lengthM: 0.1 }),
  inOrder: 'The pin feeds a sensor of some milliamps, and nothing feeds the pin.',
};
