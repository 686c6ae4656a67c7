import type { Bench } from '../bench.ts';
import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A large capacitor on the 5 V, perhaps with a resistor across it. */
function withOutput(bleedOhm?: number): Bench {
  const b = bench()
    .part('big', 'capacitor', 'seat', { farad: 0.015, ratedV: 6.3 })
    .wire('big.+', 'converter.out', { lengthM: 0.05 })
    .wire('big.-', 'converter.0v', { lengthM: 0.05 });
  if (bleedOhm === undefined) return b;
  return b.part('bleed', 'resistor', 'seat', { ohm: bleedOhm }).wire('bleed.1', 'big.+', { lengthM: 0.05 }).wire('bleed.2', 'big.-', { lengthM: 0.05 });
}

export const example: Example = {
  flagged: () => withOutput(),
  clean: () => withOutput(47),
  inOrder: 'A resistor across the capacitor empties it within two seconds.',
  also: ['big', 'computer'],
};
