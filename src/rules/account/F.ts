import type { Account } from './types.ts';

/** Group F of the catalogue, "Key-off and hold-up": entries without a rule of their own. */
export const GROUP_F: readonly Account[] = [];
