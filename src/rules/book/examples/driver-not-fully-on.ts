import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A relay that a pin switches over a low-side driver. */
function driven(fullV: number): Bench {
  return bench()
    .part('k', 'relay', 'seat', { suppression: 'diode' })
    .part('driver', 'low-side-driver', 'seat', { fullV })
    .wire('relay.87', 'k.86', { lengthM: 0.3 })
    .wire('k.85', 'driver.out', { lengthM: 0.1 })
    .wire('driver.gnd', 'converter.gnd', { lengthM: 0.1 })
    .wire(`computer.11`, 'driver.in', { lengthM: 0.2 });
}

export const example: Example = {
  flagged: () => driven(10),
  clean: () => driven(2.5),
  inOrder: 'Its resistance is stated at 2.5 V, which a pin gives.',
  also: ['k', 'converter', 'computer'],
};
