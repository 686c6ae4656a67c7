import { makeFacts } from '../analysis/facts.ts';
import { analyseFirst, type LateFigures } from '../analysis/index.ts';
import type { Analysis } from '../analysis/types.ts';
import type { Id, Plan } from '../plan/types.ts';
import { gathered, heard, type Outcome } from '../rules/engine.ts';
import { rules } from '../rules/index.ts';
import type { Subject, Verdict } from '../rules/types.ts';
import { findingsReport } from './report.ts';
import { type SecondLook, withSecondLook } from './secondLook.ts';
import { settlePlan } from './settle.ts';
import type { FindingsReport, Results } from './types.ts';

/** What the second look found, kept to stand in the first results after the next change. */
export interface Kept {
  readonly planId: Id;
  readonly figures: LateFigures;
  readonly outcomes: readonly Outcome[];
}

/** The results of one plan in two steps: what is found at once, and what takes solves of its own. */
export interface StagedResults {
  /** Is there anything that a second look is worth? */
  readonly hasMore: boolean;
  /**
   * Everything but what takes solves of its own.
   * @param kept of the same plan before its last change: stands where the second look has not been yet, so that nothing
   * goes and comes back
   */
  first(kept?: Kept | null): Results;
  second(): { readonly look: SecondLook; readonly kept: Kept };
  /** Both at once. */
  whole(): Results;
}

const QUICK = rules.filter((r) => r.needs !== 'solve');
const LATE = rules.filter((r) => r.needs === 'solve');

/** Settles and solves a plan, and has the rules look that need nothing more. */
export function stagedResults(plan: Plan): StagedResults {
  const { filled, reasons, known } = settlePlan(plan);
  const { analysis, groundwork, late } = analyseFirst(filled, known);
  const facts = makeFacts(filled, analysis, groundwork);
  const quick = QUICK.map((rule) => heard(rule, facts));

  const report = (outcomes: readonly Outcome[]): FindingsReport => {
    const said = new Map([...quick, ...outcomes].map((o) => [o.rule.id, o]));
    const inOrder = rules.flatMap((r) => said.get(r.id) ?? []);
    return findingsReport(gathered(inOrder, plan.id), facts, groundwork.graph, groundwork.paths);
  };
  const second = (): { look: SecondLook; kept: Kept } => {
    const figures = late();
    const whole = { ...facts, analysis: { ...analysis, ...figures } };
    const outcomes = LATE.map((rule) => heard(rule, whole));
    return { look: { figures, report: report(outcomes) }, kept: { planId: plan.id, figures, outcomes } };
  };
  return {
    hasMore: analysis.arrivals.length > 0,
    first: (kept = null) => {
      if (kept?.planId !== plan.id) return { filled, reasons, analysis, report: report([]) };
      return {
        filled,
        reasons,
        analysis: carried(analysis, kept.figures),
        report: report(kept.outcomes.map((o) => ({ ...o, verdicts: o.verdicts.filter(isThere(filled)) }))),
      };
    },
    second,
    whole: () => {
      const { look } = second();
      return withSecondLook({ filled, reasons, analysis, report: look.report }, look);
    },
  };
}

/** Worst volts of before, where the same load still stands. */
function carried(analysis: Analysis, figures: LateFigures): Analysis {
  const before = new Map(figures.arrivals.map((a) => [`${a.part} ${a.label}`, a]));
  const arrivals = analysis.arrivals.map((a) => {
    const { worstLow = null, worstHigh = null } = before.get(`${a.part} ${a.label}`) ?? {};
    return { ...a, worstLow, worstHigh };
  });
  return { ...analysis, arrivals, dependsOnHistory: figures.dependsOnHistory };
}

/** Does everything that a verdict speaks of still stand in the plan? */
function isThere(plan: Plan): (v: Verdict) => boolean {
  const has = ({ kind, id }: Subject): boolean => kind === 'plan' || (kind === 'part' ? plan.parts : plan.wires)[id] !== undefined;
  return (v) => (v.outcome === 'finding' ? [v.finding.subject, ...v.finding.related].every(has) : has(v.subject));
}
