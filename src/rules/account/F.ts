import type { Account } from './types.ts';

/** Group F of the catalogue, "Key-off and hold-up": every entry is a rule of its own. */
export const GROUP_F: readonly Account[] = [];
