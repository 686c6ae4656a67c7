import type { Id, Plan } from '../plan/types.ts';
import { computeResults, type OfferedRepair, provedRepairs } from './index.ts';
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

/** Keeps the results of a plan for the questions that follow. */
export function remember(key: number, results: Results): void {
  known = { key, results };
}

/** Proved repairs of a finding, one step for each that is tried; none where the plan has no such finding. */
export function* offers({ planKey, plan, rule, subject }: OffersOrder): Generator<void, OfferedRepair[]> {
  if (known?.key !== planKey) {
    remember(planKey, computeResults(plan));
    yield;
  }
  const { results } = known!;
  const finding = results.report.findings.find((f) => f.rule === rule && f.subject.id === subject);
  const good: OfferedRepair[] = [];
  if (!finding) return good;
  for (const repair of provedRepairs(plan, results, finding)) {
    if (repair) good.push(repair);
    yield;
  }
  return good;
}
