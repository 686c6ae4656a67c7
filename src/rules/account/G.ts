import type { Account } from './types.ts';

/** Group G of the catalogue, "Parked": every entry is a rule of its own. */
export const GROUP_G: readonly Account[] = [];
