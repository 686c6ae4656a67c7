import { bench } from '../plans.ts';
import type { Example } from '../types.ts';

/** A capacitor on the 5 V of a converter that gives little more than the board draws. */
const withOutput = (farad: number) =>
  bench()
    .set('converter', { limitMinA: 2.15, limitMaxA: 4, ratedA: 2 })
    .part('big', 'capacitor', 'seat', { farad, ratedV: 16 })
    .wire('big.+', 'converter.out', { lengthM: 0.05 })
    .wire('big.-', 'converter.0v', { lengthM: 0.05 });

export const example: Example = {
  flagged: () => withOutput(0.01),
  clean: () => withOutput(470e-6),
  inOrder: '470 µF fill in a few milliseconds, before the converter gives up.',
  also: ['big', 'computer'],
};
