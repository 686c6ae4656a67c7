import type { Facts } from '../analysis/factsTypes.ts';
import type { Finding, RuleDef, Subject, Verdict } from './types.ts';

/** Findings that point at more than so many others share their lists. */
const MANY = 16;

export interface RuleRun {
  readonly findings: readonly Finding[];
  /** Rules that had something to look at. */
  readonly looked: number;
  readonly cannotTell: readonly { readonly rule: RuleDef; readonly subject: Subject; readonly needs: string }[];
  readonly notApplicable: readonly string[];
  readonly crashed: readonly { readonly rule: string; readonly message: string }[];
}

/** What one rule said of a plan; `crash` is the message of a rule that threw. */
export interface Outcome {
  readonly rule: RuleDef;
  readonly verdicts: readonly Verdict[];
  readonly crash?: string;
}

/** Runs rules over facts. A rule that throws counts as "cannot tell"; the others still run. */
export function runRules(rules: readonly RuleDef[], facts: Facts): RuleRun {
  return gathered(
    rules.map((rule) => heard(rule, facts)),
    facts.plan.id,
  );
}

/** Has one rule look, and hears what it says. */
export function heard(rule: RuleDef, facts: Facts): Outcome {
  try {
    return { rule, verdicts: rule.check(facts) };
  } catch (error) {
    return { rule, verdicts: [], crash: error instanceof Error ? error.message : String(error) };
  }
}

/** What rules said, by kind of verdict, in the order of the rules. */
export function gathered(outcomes: readonly Outcome[], planId: string): RuleRun {
  const findings: Finding[] = [];
  const cannotTell: { rule: RuleDef; subject: Subject; needs: string }[] = [];
  const notApplicable: string[] = [];
  const crashed: { rule: string; message: string }[] = [];
  let looked = 0;
  const share = sharedSubjects();
  for (const { rule, verdicts, crash } of outcomes) {
    if (crash !== undefined) {
      crashed.push({ rule: rule.id, message: crash });
      cannotTell.push({ rule, subject: { kind: 'plan', id: planId }, needs: 'this check failed; the others still ran' });
      continue;
    }
    if (verdicts.length === 0) notApplicable.push(rule.id);
    else looked++;
    for (const v of verdicts) {
      if (v.outcome === 'finding') findings.push(v.finding.related.length > MANY ? { ...v.finding, related: share(v.finding.related) } : v.finding);
      else if (v.outcome === 'cannot tell') cannotTell.push({ rule, subject: v.subject, needs: v.needs });
    }
  }
  return { findings, looked, cannotTell, notApplicable, crashed };
}

/** In a plan joined crosswise each finding points at the whole mesh. Pointed at once, it crosses from the worker once. */
function sharedSubjects(): (list: readonly Subject[]) => readonly Subject[] {
  const subjects = new Map<string, Subject>();
  const lists = new Map<string, readonly Subject[]>();
  return (list) => {
    const keys = list.map((s) => `${s.kind} ${s.id}`);
    const all = keys.join();
    let shared = lists.get(all);
    if (!shared) {
      shared = list.map((s, i) => {
        const key = keys[i] as string;
        const known = subjects.get(key) ?? s;
        subjects.set(key, known);
        return known;
      });
      lists.set(all, shared);
    }
    return shared;
  };
}
