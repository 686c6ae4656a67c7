import type { PartView } from '../../analysis/factsTypes.ts';
import type { Id } from '../../plan/types.ts';
import { ruleById } from '../../rules/index.ts';
import type { Subject } from '../../rules/types.ts';
import type { Check, Scope } from './types.ts';

export const subject = (view: PartView | undefined): readonly Subject[] => (view ? [{ kind: 'part', id: view.part.id }] : []);
export const wire = (id: Id): Subject => ({ kind: 'wire', id });

/** A fact of the wiring. */
export function fact(text: string, met: boolean, ...views: readonly (PartView | undefined)[]): Check {
  return { text, met, about: views.flatMap(subject) };
}

/** What the rules of a step have against the plan: its hazards and faults, as they say it. What was set aside counts too. */
export function ruleChecks({ results }: Scope, rules: readonly string[]): Check[] {
  const named = new Set(rules);
  return results.report.findings
    .filter((f) => named.has(f.rule) && f.level !== 'advice')
    .map((f) => ({
      text: f.what,
      met: false,
      about: f.subject.kind === 'plan' ? f.related : [f.subject, ...f.related],
      rule: ruleById.get(f.rule)?.title ?? f.rule,
    }));
}
