import type { Id, Plan } from '../plan/types.ts';
import { computeResults, type OfferedRepair, repairsFor } from './index.ts';
import type { Results } from './types.ts';

/** What is asked of the worker: what mends one finding of a plan. */
export interface OffersOrder {
  /** The same number for the same plan, so that its results are worked out once. */
  readonly planKey: number;
  readonly plan: Plan;
  readonly rule: string;
  readonly subject: Id;
}

let known: { readonly key: number; readonly results: Results } | null = null;

/** Proved repairs of a finding; none where the plan has no such finding. */
export function offers({ planKey, plan, rule, subject }: OffersOrder): OfferedRepair[] {
  if (known?.key !== planKey) known = { key: planKey, results: computeResults(plan) };
  const { results } = known;
  const finding = results.report.findings.find((f) => f.rule === rule && f.subject.id === subject);
  return finding ? repairsFor(plan, results, finding) : [];
}
