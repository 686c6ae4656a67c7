import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

function lamp(): Bench {
  return bench().set('senseFuse', { ratingA: 1 }).part('led', 'led', 'dash').wire('led.K', 'ground.31', { lengthM: 0.3 });
}

export const example: Example = {
  flagged: () => lamp().wire('senseFuse.2', 'led.A', { lengthM: 0.1 }),
  clean: () =>
    lamp().part('r', 'resistor', 'dash', { ohm: 2200, ratedW: 0.25 }).wire('senseFuse.2', 'r.1', { lengthM: 0.1 }).wire('r.2', 'led.A', { lengthM: 0.1 }),
  inOrder: '2.2 kΩ let 6 mA through.',
  also: ['feed15', 'senseFuse', 'led', 'ground'],
};
