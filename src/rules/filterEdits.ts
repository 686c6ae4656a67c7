import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { supplyPair } from '../parts/computer/facts.ts';
import { stopS } from '../parts/computer/settings.ts';
import { Draft } from '../plan/draft.ts';
import { type as typeIn } from './build.ts';
import { called, plain } from './defineRule.ts';
import { holdFor } from './holdEdits.ts';
import { endingAt, needAfter } from './supplyHold.ts';
import type { Repair } from './types.ts';

/**
 * Lets a computer wait longer before it believes the key. A longer filter is a longer stop: where a hold relay would then
 * let go too soon, its time is raised in the same edit.
 */
export function longerFilter(facts: Facts, computer: PartView, filterS: number): Repair {
  const ending = endingAt(facts, computer, supplyPair(computer.s).plus);
  const need = needAfter(stopS(computer.s) - computer.s.num('filterS') + filterS);
  const relay = ending?.why === 'timer' && ending.holdS < need ? ending.by : null;
  const holdS = relay ? holdFor(need, relay.s.num('holdTol')) : 0;
  const title = `Let ${called(computer)} wait ${plain(filterS)} s before it believes the key`;
  return {
    title: relay ? `${title}, and ${called(relay)} hold ${plain(holdS)} s` : title,
    safe: true,
    edit: (plan) => {
      if (!plan.parts[computer.part.id]) return null;
      const draft = new Draft(plan);
      typeIn(draft, computer.part.id, { filterS });
      if (relay) typeIn(draft, relay.part.id, { holdS });
      return draft.edit('repair.apply', 'Believe the key later');
    },
  };
}
