import type { Account } from './types.ts';

/** Group J of the catalogue, "Contacts, coils, lamps": entries without a rule of their own. */
export const GROUP_J: readonly Account[] = [];
