import type { Account } from './types.ts';

/** Group K of the catalogue, "Heat": entries without a rule of their own. */
export const GROUP_K: readonly Account[] = [];
