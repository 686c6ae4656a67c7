import type { Account } from './types.ts';

/** Group A of the catalogue, "Source and protection": entries without a rule of their own. */
export const GROUP_A: readonly Account[] = [
  {
    code: 'A18',
    how: 'checklist',
    when: 'wiring',
    line: 'Let no self-resetting fuse or breaker be the only guard of a tap: fit a blade fuse of the rating on this sheet.',
    reason: 'The shelf holds no self-resetting fuse, so a plan cannot show one; in a hot dash it trips early, and a surge can leave it shorted.',
  },
];
