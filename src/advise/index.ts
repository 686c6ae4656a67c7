import { makeFacts } from '../analysis/facts.ts';
import type { Facts } from '../analysis/factsTypes.ts';
import { apply } from '../plan/apply.ts';
import type { Edit, Plan } from '../plan/types.ts';
import { ruleById } from '../rules/index.ts';
import type { Finding, Repair, RuleDef } from '../rules/types.ts';
import { type Effect, effectOf } from './effect.ts';
import { fittedTouched } from './fitted.ts';
import { stagedResults } from './staged.ts';
import type { Results } from './types.ts';

/**
 * Everything computed for one plan: automatic values, readings, findings. Pure; takes the plan as the person left it.
 * @throws Error only for plans that the codec would refuse (unknown part kinds).
 */
export function computeResults(plan: Plan): Results {
  return stagedResults(plan).whole();
}

export interface OfferedRepair {
  readonly title: string;
  readonly safe: boolean;
  readonly edit: Edit;
  /** What it changes although it is fitted already, by name: then it is never `safe`. */
  readonly fitted: readonly string[];
  /** What it does to figures and parts list; null in large plans, where it was not tried. */
  readonly effect: Effect | null;
}

/** A repair as its rule proposes it, not tried yet. */
export type ProposedRepair = Omit<OfferedRepair, 'effect'>;

/** Larger plans take a rule's repair as it is: proving it would hold up whoever waits for it. */
const PROVE_UP_TO_PARTS = 120;

/**
 * Repairs for one finding of results, as edits to the plan that the results belong to. Each is tried first: what would
 * leave the finding or raise a hazard is not offered.
 */
export function repairsFor(plan: Plan, results: Results, finding: Finding): OfferedRepair[] {
  return [...provedRepairs(plan, results, finding)].filter((repair) => repair !== null);
}

/** The same one after another, null for each that is not offered: trying one takes as long as working out the plan. */
export function* provedRepairs(plan: Plan, results: Results, finding: Finding): Generator<OfferedRepair | null, void> {
  const small = Object.keys(plan.parts).length <= PROVE_UP_TO_PARTS;
  for (const repair of proposals(plan, results, finding)) {
    const after = small ? tried(plan, repair.edit) : null;
    if (!small) yield { ...repair, effect: null };
    else yield after && helped(results, after, finding) ? { ...repair, effect: effectOf(results, after) } : null;
  }
}

/** What a finding's rule proposes and fits the plan as it is, untried. What touches fitted things is never `safe`. */
export function proposals(plan: Plan, results: Results, finding: Finding): ProposedRepair[] {
  const rule = ruleById.get(finding.rule);
  if (!rule?.repair) return [];
  return proposed(rule.repair, finding, factsOf(results)).flatMap((repair) => {
    const { title, safe } = repair;
    const edit = repair.edit(plan);
    if (!edit || edit.changes.length === 0) return [];
    const fitted = fittedTouched(plan, edit);
    return [{ title, safe: safe && fitted.length === 0, fitted, edit: { ...edit, intent: 'repair.apply', label: title } }];
  });
}

const facts = new WeakMap<Results, Facts>();

/** Facts of results, made once: each finding of a plan asks for them. */
function factsOf(results: Results): Facts {
  let made = facts.get(results);
  if (!made) {
    made = makeFacts(results.filled, results.analysis);
    facts.set(results, made);
  }
  return made;
}

/** A repair that throws is a slip of its rule: the finding stands without it. */
function proposed(repair: NonNullable<RuleDef['repair']>, finding: Finding, facts: Facts): readonly Repair[] {
  try {
    return repair(finding, facts);
  } catch {
    return [];
  }
}

function tried(plan: Plan, edit: Edit): Results | null {
  const applied = apply(plan, edit);
  return applied.ok ? computeResults(applied.plan) : null;
}

const keyOf = (f: Finding): string => `${f.rule}|${f.subject.id}`;

/** Is the finding gone, and has no new hazard come? */
export function helped(before: Results, after: Results, finding: Finding): boolean {
  const known = new Set(before.report.findings.filter((f) => f.level === 'hazard').map(keyOf));
  return after.report.findings.every((f) => keyOf(f) !== keyOf(finding) && (f.level !== 'hazard' || known.has(keyOf(f))));
}

export type { Effect } from './effect.ts';
export { settlePlan } from './settle.ts';
export type { Card, FindingsReport, Reasons, Results } from './types.ts';
