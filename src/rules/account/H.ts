import type { Account } from './types.ts';

/** Group H of the catalogue, "Grounds and noise": entries without a rule of their own. */
export const GROUP_H: readonly Account[] = [
  {
    code: 'H6',
    how: 'checklist',
    when: 'closing',
    line: 'Keep every converter and its wires at least 0.3 m from antennas and antenna leads, also those of the vehicle; then listen to a weak station with the build on and with its fuse pulled.',
    reason: 'Where antennas and their leads run inside a zone stands in no drawing. 0.3 m: common practice, no source.',
    applies: (facts) => facts.ofKind('step-down').length > 0,
  },
];
