import type { Account } from './types.ts';

/** Group H of the catalogue, "Grounds and noise": entries without a rule of their own. */
export const GROUP_H: readonly Account[] = [];
