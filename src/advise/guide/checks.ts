import type { PartView } from '../../analysis/factsTypes.ts';
import type { Id } from '../../plan/types.ts';
import { ruleById } from '../../rules/index.ts';
import type { Finding, Subject } from '../../rules/types.ts';
import type { Results } from '../types.ts';
import type { Check, Scope } from './types.ts';

export const subject = (view: PartView | undefined): readonly Subject[] => (view ? [{ kind: 'part', id: view.part.id }] : []);
export const wire = (id: Id): Subject => ({ kind: 'wire', id });

/** A fact of the wiring. */
export function fact(text: string, met: boolean, ...views: readonly (PartView | undefined)[]): Check {
  return { text, met, about: views.flatMap(subject) };
}

/** Is there anything drawn that is the person's own? */
export function hasWires({ plan }: Scope): boolean {
  return Object.values(plan.wires).some((w) => w.owner === 'build');
}

/** What the rules of a step have against the plan: its open hazards and faults, as they say it. */
export function ruleChecks({ results }: Scope, rules: readonly string[]): Check[] {
  return openFindings(results, new Set(rules)).map((f) => ({
    text: f.what,
    met: false,
    about: f.subject.kind === 'plan' ? f.related : [f.subject, ...f.related],
    rule: ruleById.get(f.rule)?.title ?? f.rule,
  }));
}

/** Hazards and faults of these rules that stand open: not what was set aside with a reason. */
export function openFindings({ report }: Results, rules: ReadonlySet<string>): Finding[] {
  return report.cards.flatMap((c) => [...c.findings, ...c.folded]).filter((f) => rules.has(f.rule) && f.level !== 'advice');
}
