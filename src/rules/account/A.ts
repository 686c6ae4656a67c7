import type { Account } from './types.ts';

/** Group A of the catalogue, "Source and protection": entries without a rule of their own. */
export const GROUP_A: readonly Account[] = [];
