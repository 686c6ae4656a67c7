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
    code: 'K6',
    how: 'checklist',
    when: 'closing',
    line: 'Leave no power bank and no lithium cell behind the dash, in the sun or where a crash would crush it: above 60 °C they swell and may burn.',
    reason: 'The shelf holds no lithium cells, so a plan cannot show them; what carries a computer over key-off is drawn as supercapacitors or a hold relay.',
    applies: (facts) => facts.ofKind('computer').length > 0,
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
