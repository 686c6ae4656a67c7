import type { Account } from './types.ts';

/** Group G of the catalogue, "Parked": entries without a rule of their own. */
export const GROUP_G: readonly Account[] = [];
