import type { Account } from './types.ts';

/** Group D of the catalogue, "Sensing 12 V signals": entries without a rule of their own. */
export const GROUP_D: readonly Account[] = [];
