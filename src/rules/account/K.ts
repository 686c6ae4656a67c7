import { BURNS_C, CHARS_C } from '../../trade/touch.ts';
import { ownHeat } from '../ownHeat.ts';
import { converters } from '../rails.ts';
import type { Account } from './types.ts';

/** Group K of the catalogue, "Heat": entries without a rule of their own. */
export const GROUP_K: readonly Account[] = [
  {
    code: 'K3',
    how: 'checklist',
    beside: 'converter-overloaded',
    when: 'closing',
    line: `With everything on for half an hour, measure the outside of each converter and regulator and add what high summer adds to its place: from ${BURNS_C} °C on bring it out of the reach of fingers, from ${CHARS_C} °C on out of the reach of foam, cloth and wires too.`,
    reason:
      'How hot a converter makes itself at its hottest spot is judged against what it bears. How warm that makes its outside, and whether a finger or foam meets it, stands in no drawing.',
    // Where not even the hottest spot comes so far, no outside does.
    applies: (facts) => converters(facts).some((c) => ownHeat(facts, c).hotC >= BURNS_C),
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
