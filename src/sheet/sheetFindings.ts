import type { Card, Results } from '../advise/types.ts';
import { ruleById } from '../rules/index.ts';
import type { Finding } from '../rules/types.ts';
import { NOT_LOOKED_AT } from './checklist.ts';
import { figureText } from './figures.ts';
import { type Column, type Html, h, list, raw, section, table } from './markup.ts';
import { LEVEL_WORDS, plural, whereText } from './words.ts';

/** Open findings with their figures, what could not be told, what was never looked at, what was set aside and why. */
export function findingsSections(results: Results): Html[] {
  const { report } = results;
  return [
    section(
      'Open findings',
      report.cards.length === 0
        ? h`<p>${`Nothing found among ${plural(report.looked, 'thing')} looked at. That is no promise: see what was not looked at.`}</p>`
        : h`<div class="${report.cards.length === 1 ? 'apart' : 'cols'}">${report.cards.map(cardHtml)}</div>`,
      'roomy',
    ),
    section('What could not be told', unknowns(results)),
    section('What was not looked at', h`<div class="cols">${list(NOT_LOOKED_AT)}</div>`),
    ...(report.aside.length === 0 ? [] : [section('Set aside by the planner', aside(results))]),
  ];
}

function cardHtml(card: Card): Html {
  const times = card.findings.length > 1 ? ` ×${card.findings.length}` : '';
  return h`<div class="finding">
<p><span class="level ${card.level}">${LEVEL_WORDS[card.level]}</span> <strong>${card.title}${times}</strong></p>
${findingsHtml(card.findings)}
</div>
`;
}

/** What to do stands once where it is the same everywhere. */
function findingsHtml(findings: readonly Finding[]): Html {
  const [first] = findings;
  const same = findings.length > 1 && findings.every((f) => f.todo === first?.todo);
  return same ? h`${findings.map((f) => findingHtml(f, ''))}<p>${first?.todo ?? ''}</p>` : h`${findings.map((f) => findingHtml(f, f.todo))}`;
}

function findingHtml(finding: Finding, todo: string): Html {
  const figures = finding.figures.map((f) => `${f.label} ${figureText(f.value, f.unit)}`);
  const where = whereText(finding.state, finding.band);
  const facts = [...figures, ...(where === '' ? [] : [`worst in: ${where}`])].join('; ');
  return h`<p>${`${finding.what} ${todo}`.trim()}${facts === '' ? raw('') : h`<br><span class="small">${facts}</span>`}</p>`;
}

function unknowns(results: Results): Html {
  const { cannotTell, crashed } = results.report;
  if (cannotTell.length + crashed.length === 0) return h`<p>Nothing: every fact that was asked for is in the plan.</p>`;
  const byNeed = new Map<string, { readonly rules: Set<string>; readonly places: Set<string> }>();
  for (const c of cannotTell) {
    const so = byNeed.get(c.needs) ?? { rules: new Set(), places: new Set() };
    so.rules.add(ruleById.get(c.rule)?.title ?? c.rule);
    so.places.add(`${c.subject.kind}:${c.subject.id}`);
    byNeed.set(c.needs, so);
  }
  const rows = [...byNeed].map(([needs, { rules, places }]) => [needs, String(places.size), [...rules].join('; ')]);
  const broken = crashed.map((c) => ['A check failed to run', '', ruleById.get(c.rule)?.title ?? c.rule]);
  const columns: readonly Column[] = [{ title: 'Missing fact' }, { title: 'Places', kind: 'n' }, { title: 'So this was not judged' }];
  return table('What could not be told', columns, [...rows, ...broken]);
}

function aside(results: Results): Html {
  const rows = results.report.aside.map(({ card, reason }) => [LEVEL_WORDS[card.level], card.title, card.findings.map((f) => f.what).join(' '), reason]);
  return table('Set aside', [{ title: 'Level' }, { title: 'Finding' }, { title: 'What' }, { title: 'Reason given' }], rows);
}
