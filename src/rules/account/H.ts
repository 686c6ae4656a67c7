import type { Account } from './types.ts';

/** Group H of the catalogue, "Grounds and noise": entries without a rule of their own. */
export const GROUP_H: readonly Account[] = [
  {
    code: 'H4',
    how: 'checklist',
    beside: 'sound-too-loud',
    when: 'wiring',
    line: 'Join nothing that is made for a loudspeaker to a sound input: its volts destroy the input, and often neither of its two wires is ground; take a line output, or a level adapter with a transformer.',
    reason:
      'The levels of line and headphone outputs are judged. No part on the shelf drives a loudspeaker, so a plan cannot show one at an input; above 5 V an input is in danger (common practice, no source).',
    applies: (facts) => facts.ofKind('radio-aux').length > 0,
  },
  {
    code: 'H6',
    how: 'checklist',
    when: 'closing',
    line: 'Keep every converter and its wires at least 0.3 m from antennas and antenna leads, also those of the vehicle; then listen to a weak station with the build on and with its fuse pulled.',
    reason: 'Where antennas and their leads run inside a zone stands in no drawing. 0.3 m: common practice, no source.',
    applies: (facts) => facts.ofKind('step-down').length > 0,
  },
];
