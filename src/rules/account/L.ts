import type { Account } from './types.ts';

/** Group L of the catalogue, "People, law, habit": entries without a rule of their own. */
export const GROUP_L: readonly Account[] = [];
