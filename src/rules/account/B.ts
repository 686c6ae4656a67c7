import type { Account } from './types.ts';

/** Group B of the catalogue, "Wires and joints": entries without a rule of their own. */
export const GROUP_B: readonly Account[] = [];
