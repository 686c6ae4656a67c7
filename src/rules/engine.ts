import type { Facts } from '../analysis/factsTypes.ts';
import type { Finding, RuleDef, Subject, Verdict } from './types.ts';

export interface RuleRun {
  readonly findings: readonly Finding[];
  /** Rules that had something to look at. */
  readonly looked: number;
  readonly cannotTell: readonly { readonly rule: RuleDef; readonly subject: Subject; readonly needs: string }[];
  readonly notApplicable: readonly string[];
  readonly crashed: readonly { readonly rule: string; readonly message: string }[];
}

/** Runs rules over facts. A rule that throws counts as "cannot tell"; the others still run. */
export function runRules(rules: readonly RuleDef[], facts: Facts): RuleRun {
  const findings: Finding[] = [];
  const cannotTell: { rule: RuleDef; subject: Subject; needs: string }[] = [];
  const notApplicable: string[] = [];
  const crashed: { rule: string; message: string }[] = [];
  let looked = 0;
  for (const rule of rules) {
    let verdicts: readonly Verdict[];
    try {
      verdicts = rule.check(facts);
    } catch (error) {
      crashed.push({ rule: rule.id, message: error instanceof Error ? error.message : String(error) });
      cannotTell.push({ rule, subject: { kind: 'plan', id: facts.plan.id }, needs: 'this check failed; the others still ran' });
      continue;
    }
    if (verdicts.length === 0) notApplicable.push(rule.id);
    else looked++;
    for (const v of verdicts) {
      if (v.outcome === 'finding') findings.push(v.finding);
      else if (v.outcome === 'cannot tell') cannotTell.push({ rule, subject: v.subject, needs: v.needs });
    }
  }
  return { findings, looked, cannotTell, notApplicable, crashed };
}
