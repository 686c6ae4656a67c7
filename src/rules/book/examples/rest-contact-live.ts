import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A relay with a plug at its rest contact, on a lead of that fuse. */
const changeover = (from: string): Bench =>
  bench()
    .part('k', 'relay', 'seat', { suppression: 'diode' })
    .part('plug', 'connector', 'desk', { ways: 2 })
    .wire(from, 'k.30', { lengthM: 2.1 })
    .wire('senseFuse.2', 'k.86', { lengthM: 2.3 })
    .wire('k.85', 'converter.gnd', { lengthM: 0.3 })
    .wire('k.87a', 'plug.a1', { lengthM: 2 });

export const example: Example = {
  flagged: () => changeover('fuse.2'),
  clean: () => changeover('senseFuse.2'),
  inOrder: 'Its 30 hangs on ignition: dead when the key is off.',
  also: ['fuse', 'senseFuse'],
};
