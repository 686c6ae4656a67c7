import { apply, merge } from '../plan/apply.ts';
import type { Edit, Plan } from '../plan/types.ts';
import type { Finding, Level } from '../rules/types.ts';
import { type Effect, effectOf } from './effect.ts';
import { computeResults, helped, proposals } from './index.ts';
import type { Results } from './types.ts';

/** Most repairs in one go; a plan that wants more is looked at in between. */
export const MOST_STEPS = 50;

/** One repair that was made. */
export interface MendStep {
  readonly rule: string;
  readonly level: Level;
  /** What was wrong, as the finding said it. */
  readonly what: string;
  /** What was done about it. */
  readonly done: string;
}

/** Hazards and faults that stand open. */
export interface Count {
  readonly hazards: number;
  readonly faults: number;
}

export interface MendedPlan {
  /** One edit for all, one entry of undo; null when nothing could be mended without asking. */
  readonly edit: Edit | null;
  readonly steps: readonly MendStep[];
  readonly before: Count;
  readonly after: Count;
  /** What all of it together does to figures and parts list. */
  readonly effect: Effect;
  /** What is still open: with repairs that change something the person chose, or with none. */
  readonly questions: readonly { readonly finding: Finding; readonly offers: readonly string[] }[];
}

/**
 * Mends what can be mended without asking, one repair after another, each against the plan that the last one left. A
 * repair is kept only when it takes its finding away, brings no other hazard, and lowers the number of hazards, or leaves
 * that and lowers the number of faults; so repairs that pull against each other cannot go round in circles, and the work ends. What was fitted, and what a person has set
 * aside, is not touched. Yields the number of repairs made, after every plan that was tried: a page can breathe there.
 */
export function* mendPlan(plan: Plan, results: Results): Generator<number, MendedPlan> {
  const before = countOf(results);
  let now = plan;
  let known = results;
  let edit: Edit | null = null;
  const steps: MendStep[] = [];
  for (let goes = true; goes && steps.length < MOST_STEPS; ) {
    goes = false;
    for (const finding of wanted(known)) {
      const step = yield* firstThatLowers(now, known, finding, steps.length);
      if (!step) continue;
      edit = edit ? merge(edit, step.edit) : step.edit;
      ({ plan: now, results: known } = step);
      steps.push({ rule: finding.rule, level: finding.level, what: finding.what, done: step.title });
      goes = true;
      break;
    }
  }
  return {
    edit: edit && { ...edit, intent: 'repair.apply', label: `Mend all: ${steps.length} ${steps.length === 1 ? 'repair' : 'repairs'}` },
    steps,
    before,
    after: countOf(known),
    effect: effectOf(results, known),
    questions: wanted(known).map((finding) => ({ finding, offers: proposals(now, known, finding).map((o) => o.title) })),
  };
}

/** Open hazards and faults, the way the cards stand. */
function wanted({ report }: Results): Finding[] {
  // A fault may be folded under an advice that explains it.
  return report.cards.flatMap((c) => [...c.findings, ...c.folded]).filter((f) => f.level !== 'advice');
}

/** Counted by finding, folded ones too: a repair must not hide one behind another. */
function countOf(results: Results): Count {
  const open = wanted(results);
  return { hazards: open.filter((f) => f.level === 'hazard').length, faults: open.filter((f) => f.level === 'fault').length };
}

function lower(a: Count, b: Count): boolean {
  return a.hazards < b.hazards || (a.hazards === b.hazards && a.faults < b.faults);
}

interface Tried {
  readonly title: string;
  readonly edit: Edit;
  readonly plan: Plan;
  readonly results: Results;
}

function* firstThatLowers(plan: Plan, results: Results, finding: Finding, made: number): Generator<number, Tried | null> {
  const least = countOf(results);
  for (const offer of proposals(plan, results, finding)) {
    if (!offer.safe) continue;
    const applied = apply(plan, offer.edit);
    if (!applied.ok) continue;
    const after = computeResults(applied.plan);
    yield made;
    if (lower(countOf(after), least) && helped(results, after, finding)) return { title: offer.title, edit: offer.edit, plan: applied.plan, results: after };
  }
  return null;
}
