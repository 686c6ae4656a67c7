import { pinDrivers } from '../driven.ts';
import type { Account } from './types.ts';

/** Group E of the catalogue, "Pins": entries without a rule of their own, and what a rule cannot see of its entry. */
export const GROUP_E: readonly Account[] = [
  {
    code: 'E12',
    how: 'checklist',
    beside: 'output-wakes-at-power-up',
    when: 'handing over',
    line: 'With hands, tools and cloth clear of everything that an output pin switches, power the computer up and watch until its program runs: nothing that moves or heats may come on by itself.',
    reason:
      'Whether an output comes on at power-up is judged as a fault; it is a danger where something moves or heats behind it, and no part on the shelf is a motor or a heater, so a plan cannot show one.',
    applies: (facts) => pinDrivers(facts).length > 0,
  },
];
