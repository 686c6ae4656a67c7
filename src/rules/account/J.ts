import type { Account } from './types.ts';

/** Group J of the catalogue, "Contacts, coils, lamps": entries without a rule of their own. */
export const GROUP_J: readonly Account[] = [
  {
    code: 'J12',
    how: 'checklist',
    when: 'closing',
    line: 'Place switches within reach without leaning, labelled, set back or guarded, where neither a knee nor a child presses them.',
    reason: 'A drawing knows the zone of a switch, not its height or what is in front of it.',
    applies: (facts) => facts.ofKind('master-switch', 'push-button').length > 0,
  },
];
