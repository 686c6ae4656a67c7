import { useEffect, useState } from 'react';
import type { OfferedRepair } from '../advise/index.ts';
import type { Finding, RuleDef } from '../rules/types.ts';
import { useApp } from '../state/store.ts';

/** Repairs of a finding. The rules arrive late, so that the first screen need not wait for them. */
export function useRepairs(finding: Finding): readonly OfferedRepair[] {
  const results = useApp((s) => s.results);
  const plan = useApp((s) => s.resultsFor);
  const [offers, setOffers] = useState<readonly OfferedRepair[]>([]);
  useEffect(() => {
    let gone = false;
    setOffers([]);
    if (results && plan)
      void import('../advise/index.ts').then(({ repairsFor }) => {
        if (!gone) setOffers(repairsFor(plan, results, finding));
      });
    return () => {
      gone = true;
    };
  }, [plan, results, finding]);
  return offers;
}

/** The rule behind a card, with why it matters and its source; null until it has arrived. */
export function useRule(id: string, wanted: boolean): RuleDef | null {
  const [rule, setRule] = useState<RuleDef | null>(null);
  useEffect(() => {
    let gone = false;
    if (wanted)
      void import('../rules/index.ts').then(({ ruleById }) => {
        if (!gone) setRule(ruleById.get(id) ?? null);
      });
    return () => {
      gone = true;
    };
  }, [id, wanted]);
  return rule;
}
