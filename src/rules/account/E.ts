import type { Account } from './types.ts';

/** Group E of the catalogue, "Pins": entries without a rule of their own. */
export const GROUP_E: readonly Account[] = [];
