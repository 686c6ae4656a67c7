import { makeFacts } from '../analysis/facts.ts';
import { analyse } from '../analysis/index.ts';
import type { Edit, Plan } from '../plan/types.ts';
import { ruleById, rules } from '../rules/index.ts';
import type { Finding, Repair } from '../rules/types.ts';
import { findingsReport } from './report.ts';
import { settlePlan } from './settle.ts';
import type { Results } from './types.ts';

/**
 * Everything computed for one plan: automatic values, readings, findings. Pure; takes the plan as the person left it.
 * @throws Error only for plans that the codec would refuse (unknown part kinds).
 */
export function computeResults(plan: Plan): Results {
  const { filled, reasons, known } = settlePlan(plan);
  const { analysis, groundwork } = analyse(filled, known);
  const facts = makeFacts(filled, analysis, groundwork);
  const report = findingsReport(rules, facts, groundwork.graph, groundwork.paths);
  return { filled, reasons, analysis, report };
}

export interface OfferedRepair {
  readonly title: string;
  readonly safe: boolean;
  readonly edit: Edit;
}

/** Repairs for one finding of results, as edits to the plan that the results belong to. */
export function repairsFor(plan: Plan, results: Results, finding: Finding): OfferedRepair[] {
  const rule = ruleById.get(finding.rule);
  if (!rule?.repair) return [];
  const facts = makeFacts(results.filled, results.analysis);
  const offers: OfferedRepair[] = [];
  for (const repair of rule.repair(finding, facts) as readonly Repair[]) {
    const edit = repair.edit(plan);
    if (edit && edit.changes.length > 0)
      offers.push({ title: repair.title, safe: repair.safe, edit: { ...edit, intent: 'repair.apply', label: repair.title } });
  }
  return offers;
}

export { settlePlan } from './settle.ts';
export type { Card, FindingsReport, Reasons, Results } from './types.ts';
