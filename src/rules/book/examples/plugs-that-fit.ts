import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A plug with 12 V and a plug with 5 V in one place. */
function plugs(second: string): Bench {
  return bench()
    .part('p12', 'connector', 'seat', { ways: 2, family: 'Barrel 2.1 mm' })
    .part('p5', 'connector', 'seat', { ways: 2, family: second })
    .wire('relay.87', 'p12.a1', { lengthM: 0.2 })
    .wire('p12.a2', 'converter.gnd', { lengthM: 0.2 })
    .wire('converter.out', 'p5.a1', { lengthM: 0.2 })
    .wire('p5.a2', 'converter.0v', { lengthM: 0.2 });
}

export const example: Example = {
  flagged: () => plugs('Barrel 2.1 mm'),
  clean: () => plugs('Barrel 2.5 mm'),
  inOrder: 'Plugs of different size: neither goes into the other’s socket.',
  also: ['relay', 'p12', 'converter', 'p5'],
};
