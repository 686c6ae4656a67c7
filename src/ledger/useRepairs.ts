import { useEffect, useRef, useState } from 'react';
import type { OfferedRepair } from '../advise/index.ts';
import { fetchedNow, later, useLater } from '../faces/useLater.ts';
import type { Finding, RuleDef } from '../rules/types.ts';
import { type RepairPort, repairClient } from '../state/repairClient.ts';
import { app, useApp } from '../state/store.ts';
import { sharedPort } from '../state/workerClient.ts';
import { change } from './actions.ts';

const mendAllCode = later('What mends all alike', () => import('../advise/mendAll.ts'));
const rulesCode = later('Why it matters', () => import('../rules/index.ts'));

const client = repairClient(() => sharedPort() as RepairPort);

/** Repairs of a finding, once a worker has proved them. */
export function useRepairs(finding: Finding): readonly OfferedRepair[] {
  // None while the plan is being changed: what is shown stays, and nothing is proved for a plan that has gone.
  const plan = useApp((s) => (s.resultsFor === s.plan ? s.plan : null));
  const [offers, setOffers] = useState<readonly OfferedRepair[]>([]);
  const asked = useRef(finding);
  // The second look makes the same finding anew; what mends it stays.
  if (asked.current.rule !== finding.rule || asked.current.subject.id !== finding.subject.id) asked.current = finding;
  const same = asked.current;
  useEffect(() => {
    if (!plan) return;
    setOffers([]);
    return client.ask(plan, same, setOffers);
  }, [plan, same]);
  return offers;
}

/** The kind of repair that all findings of a card have without asking first; null while not known and where there is none. */
export function useKindForAll(findings: readonly Finding[]): string | null {
  const results = useApp((s) => (s.looking ? null : s.results));
  const plan = useApp((s) => s.resultsFor);
  const code = useLater(mendAllCode, findings.length > 1);
  const [kind, setKind] = useState<string | null>(null);
  // After the picture: it tries a repair.
  useEffect(() => setKind(code && results && plan ? code.kindForAll(plan, results, findings) : null), [code, plan, results, findings]);
  return kind;
}

/**
 * Mends them one after another and puts all into the plan as one entry of undo; `tell` hears how many are mended. Gives up
 * without a change when the person changes the plan meanwhile.
 */
export async function mendThemAll(findings: readonly Finding[], kind: string, tell: (mended: number) => void): Promise<void> {
  const { plan, results, resultsFor, looking, setNotice } = app.getState();
  if (!plan || !results || resultsFor !== plan || looking) return;
  const code = await fetchedNow(mendAllCode, () => void mendThemAll(findings, kind, tell));
  if (!code || app.getState().plan !== plan) return;
  const steps = code.mendAll(plan, results, findings, kind);
  let step = steps.next();
  while (!step.done) {
    tell(step.value);
    // The page draws what was told.
    await new Promise((drawn) => setTimeout(drawn));
    if (app.getState().plan !== plan) return;
    step = steps.next();
  }
  const { edit, mended } = step.value;
  if (edit && change(edit) !== null) return;
  if (mended < findings.length)
    setNotice({ kind: 'info', text: `${mended} of ${findings.length} mended. The next one does not go the same way: choose its repair by itself.` });
}

/** The rule behind a card, with why it matters and its source; null until it has arrived. */
export function useRule(id: string, wanted: boolean): RuleDef | null {
  return useLater(rulesCode, wanted)?.ruleById.get(id) ?? null;
}
