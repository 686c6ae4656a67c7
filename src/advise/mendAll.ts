import { apply, merge } from '../plan/apply.ts';
import type { Edit, Plan } from '../plan/types.ts';
import { ruleById } from '../rules/index.ts';
import type { Finding, Repair } from '../rules/types.ts';
import { computeResults, helped, type ProposedRepair, proposals } from './index.ts';
import type { Results } from './types.ts';

/** Repairs are named by what is done: two that begin with the same verb ("Move it ...") are of one kind. */
const verbOf = (repair: Pick<Repair, 'title'>): string => repair.title.split(' ')[0] ?? '';

/** Repairs that change nothing the person chose or fitted and that fit the plan as it is. */
function harmless(plan: Plan, results: Results, finding: Finding): ProposedRepair[] {
  return proposals(plan, results, finding).filter((r) => r.safe);
}

/**
 * The kind of repair (its verb) that every finding of a card has without asking first; null where one of them has none.
 * The repairs are not tried yet: each would change the plan for the next.
 */
export function kindForAll(plan: Plan, results: Results, findings: readonly Finding[]): string | null {
  if (findings.length < 2) return null;
  const kinds = findings.map((f) => harmless(plan, results, f).map(verbOf));
  return kinds[0]?.find((verb) => kinds.every((k) => k.includes(verb))) ?? null;
}

export interface MendedAll {
  /** One edit for all that was mended; null when the first did not go. */
  readonly edit: Edit | null;
  /** Findings that are gone, of those asked for. */
  readonly mended: number;
}

/**
 * Mends findings of one rule one after another, each against the plan as the ones before have left it. Stops at the first
 * that no longer fits, that would not go, or that would bring a hazard. Yields the number mended after each, so that a page
 * can breathe: every step works the whole plan out again.
 */
export function* mendAll(plan: Plan, results: Results, findings: readonly Finding[], kind: string): Generator<number, MendedAll> {
  let now = plan;
  let known = results;
  let edit: Edit | null = null;
  let mended = 0;
  for (const wanted of findings) {
    const finding = known.report.findings.find((f) => f.rule === wanted.rule && f.subject.id === wanted.subject.id);
    if (finding) {
      const repair = harmless(now, known, finding).find((r) => verbOf(r) === kind);
      const applied = repair ? apply(now, repair.edit) : null;
      if (!repair || !applied?.ok) break;
      const after = computeResults(applied.plan);
      if (!helped(known, after, finding)) break;
      edit = edit ? merge(edit, repair.edit) : repair.edit;
      now = applied.plan;
      known = after;
    }
    mended++;
    yield mended;
  }
  const title = ruleById.get(findings[0]?.rule ?? '')?.title ?? 'findings';
  return { edit: edit && { ...edit, intent: 'repair.apply', label: `Mend ${mended} × ${title.charAt(0).toLowerCase()}${title.slice(1)}` }, mended };
}
