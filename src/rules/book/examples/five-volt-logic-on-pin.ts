import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A clock on the two-wire bus, fed from there. */
function clock(supply: string): Bench {
  return bench()
    .set('computer', { i2c: true, gpio2Mode: 'bus', gpio3Mode: 'bus' })
    .part('clock', 'bus-device', 'seat')
    .wire(supply, 'clock.+', { lengthM: 0.1 })
    .wire('clock.-', 'computer.39', { lengthM: 0.1 })
    .wire('clock.sda', 'computer.3', { lengthM: 0.1 })
    .wire('clock.scl', 'computer.5', { lengthM: 0.1 });
}

export const example: Example = {
  flagged: () => clock('converter.out'),
  clean: () => clock('computer.17'),
  inOrder: 'Fed from 3.3 V its lines are 3.3 V lines.',
  also: ['computer'],
};
