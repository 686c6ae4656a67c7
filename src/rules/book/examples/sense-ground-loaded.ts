import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A heater of 4 A whose thin ground wire starts at a splice; the LED's return lands where told. */
function heater(returnTo: string): Bench {
  return bench()
    .cut('led-')
    .part('splice', 'splice', 'desk')
    .part('heaterFuse', 'blade-fuse', 'dash', { ratingA: 7.5 })
    .part('heater', 'resistor', 'desk', { ohm: 3.5, ratedW: 50 })
    .wire('feed15.out', 'heaterFuse.1', { lengthM: 0.1 })
    .wire('heaterFuse.2', 'heater.1', { lengthM: 2 })
    .wire('heater.2', 'splice.s', { lengthM: 0.1 })
    .wire('splice.s', 'ground.31', { lengthM: 2.5, areaMm2: 0.5 })
    .wire('opto.K', returnTo, { lengthM: 2.3 }, 'led-');
}

export const example: Example = {
  flagged: () => heater('splice.s'),
  clean: () => heater('ground.31'),
  inOrder: 'The LED’s return has a wire of its own.',
  also: ['heater', 'splice', 'ground'],
};
