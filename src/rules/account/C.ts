import type { Account } from './types.ts';

/** Group C of the catalogue, "Converters, capacitors, 5 V": entries without a rule of their own. */
export const GROUP_C: readonly Account[] = [];
