import { proposals } from '../../index.ts';
import { fact, hasWires, subject } from '../checks.ts';
import type { Check, GuideStep, Offer, Scope } from '../types.ts';

export const whole: GuideStep = {
  id: 'whole',
  stage: 'draw',
  title: 'Nothing loose, nothing wrong',
  todo: 'Read what the rules still have against the plan, one by one, and mend it or change the plan.',
  why: 'On paper a mistake costs a minute. Behind the dash it costs a day, or a cable fire.',
  byHand: 'Answers, “Findings”: each card says what is wrong, by which figures, and what to do.',
  rules: [],
  checks(scope): Check[] {
    const { results, facts } = scope;
    const open = results.report.cards.filter((c) => c.level !== 'advice');
    const said = open.map((card): Check => {
      const first = card.findings[0];
      return { text: first?.what ?? `${card.title}.`, met: false, about: first ? [first.subject, ...first.related] : [], rule: card.title };
    });
    const loose = Object.entries(results.report.loose).map(([id, labels]): Check => {
      const view = facts.parts.get(id);
      return { text: `${view ? `${view.item} ${view.name}` : id}: nothing is joined to ${labels.join(', ')}.`, met: false, about: subject(view) };
    });
    return [
      ...said,
      ...loose,
      fact('There is a build to look at.', hasWires(scope)),
      fact('No hazard and no fault stands open.', open.length === 0),
      fact('No terminal that needs a wire is loose.', loose.length === 0),
    ];
  },
  offer: mend,
};

/** The first repair that a rule proposes, those that ask nothing first. */
function mend({ plan, results }: Scope): Offer | null {
  const findings = results.report.cards.filter((c) => c.level !== 'advice').flatMap((c) => [...c.findings, ...c.folded.filter((f) => f.level !== 'advice')]);
  const all = findings.flatMap((f) => proposals(plan, results, f));
  const first = all.find((r) => r.safe) ?? all[0];
  return first ? { title: first.title, edit: first.edit, ask: !first.safe } : null;
}
