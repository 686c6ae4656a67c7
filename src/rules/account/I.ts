import type { Account } from './types.ts';

/** Group I of the catalogue, "Links and cables": entries without a rule of their own. */
export const GROUP_I: readonly Account[] = [];
