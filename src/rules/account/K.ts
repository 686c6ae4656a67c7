import type { Account } from './types.ts';

/** Group K of the catalogue, "Heat": entries without a rule of their own. */
export const GROUP_K: readonly Account[] = [
  {
    code: 'K3',
    how: 'in rule',
    rule: 'converter-overloaded',
    reason: 'How warm a converter makes itself, P × R_th over the running temperature of its place, is one of the three limits on what it can give.',
  },
  {
    code: 'K7',
    how: 'checklist',
    when: 'closing',
    line: 'See that no screen, bracket or box stands before an air outlet, over a demister slot or on a heater duct: blow warm air through each.',
    reason: 'A plan knows zones, not where outlets and ducts lie in them.',
    applies: (facts) => [...facts.parts.values()].some((v) => v.part.owner === 'build'),
  },
];
