import type { Account } from './types.ts';

/** Group D of the catalogue, "Sensing 12 V signals": entries without a rule of their own. */
export const GROUP_D: readonly Account[] = [
  {
    code: 'D13',
    how: 'in rule',
    rule: 'tap-without-fuse',
    reason:
      'A sense wire is a tap like any other: a resistor of 1 kΩ or more within a hand’s width of it counts as its fuse, one at the computer’s end does not.',
  },
];
