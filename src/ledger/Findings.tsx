import { useEffect, useState } from 'react';
import { waitingByStage } from '../advise/headline.ts';
import type { FindingsReport } from '../advise/types.ts';
import { Section } from '../faces/Section.tsx';
import { useLasting } from '../faces/useLasting.ts';
import { setAside } from '../plan/edits.ts';
import type { Stage } from '../plan/types.ts';
import { useApp } from '../state/store.ts';
import { change, selectPart, selectSubject } from './actions.ts';
import { FindingCard } from './FindingCard.tsx';
import { partName, wireName } from './lookup.ts';
import { MendPlan } from './MendPlan.tsx';
import { useReport } from './useReport.ts';

const FIRST = 3;

/** Cards: three, then all; advice folded; what was set aside; what could not be told; what is still open. */
export function Findings({ wanted }: { readonly wanted: { readonly key: string } | null }) {
  const report = useReport();
  const isLate = useLasting(useApp((s) => s.looking && s.workerError === null));
  const [all, setAll] = useState(false);

  useEffect(() => {
    if (wanted === null) return;
    setAll(true);
    // After the full list has been drawn.
    const frame = requestAnimationFrame(() => document.getElementById(`finding-${wanted.key}`)?.focus());
    return () => cancelAnimationFrame(frame);
  }, [wanted]);

  if (!report) return null;
  const strong = report.cards.filter((c) => c.level !== 'advice');
  const advice = report.cards.filter((c) => c.level === 'advice');
  const wantsAdvice = wanted !== null && advice.some((c) => c.key === wanted.key);
  const shown = all ? strong : strong.slice(0, FIRST);
  return (
    <>
      {isLate ? (
        <p className="note">Still looking: how low and how high the volts go when parts are at the edge of their tolerance. More may be found.</p>
      ) : null}
      {report.cards.length > 0 ? null : report.looked > 0 ? (
        <p className="note">
          None of the {report.looked} checks that could be made found anything. What no drawing can show stands on the wiring sheet’s checklist.
        </p>
      ) : (
        <p>Begin with a fused feed from the shelf, then a supply, then the computer. Sets are ordinary parts, wired as most builds need them.</p>
      )}
      <MendPlan />
      {shown.map((card) => (
        <FindingCard key={card.key} card={card} />
      ))}
      {strong.length > FIRST ? (
        <button type="button" className="btn wide" onClick={() => setAll(!all)}>
          {all ? `Show the first ${FIRST} only` : `Show all ${strong.length}`}
        </button>
      ) : null}
      {advice.length > 0 ? (
        <Section key={wantsAdvice ? 'open' : 'as-is'} title={`Advice (${advice.length})`} folded={!wantsAdvice && strong.length > 0}>
          <div className="stack">
            {advice.map((card) => (
              <FindingCard key={card.key} card={card} />
            ))}
          </div>
        </Section>
      ) : null}
      <Waiting report={report} />
      <ToDo />
      <CannotTell />
      <Aside />
    </>
  );
}

const FROM: Readonly<Record<Stage, string>> = {
  find: 'finding',
  draw: 'drawing',
  buy: 'buying',
  wire: 'wiring',
  test: 'testing',
  software: 'software',
  keep: 'keeping of papers',
};

/** What matters only later in the job is counted, not told. */
function Waiting({ report }: { readonly report: FindingsReport }) {
  const stages = waitingByStage(report);
  if (stages.length === 0) return null;
  return <p className="note">{stages.map((s) => `${s.cards} more from the ${FROM[s.stage]} on`).join(', ')}.</p>;
}

function ToDo() {
  const plan = useApp((s) => s.plan);
  const todo = useApp((s) => s.results?.report.todo);
  if (!plan || !todo) return null;
  const parts = Object.entries(todo).filter(([id, list]) => list.length > 0 && plan.parts[id]);
  if (parts.length === 0) return null;
  const total = parts.reduce((n, [, list]) => n + list.length, 0);
  return (
    <Section title={`Still open (${total})`} folded>
      <p className="note">Unfinished is not wrong: these only wait.</p>
      <ul className="plain-list">
        {parts.map(([id, list]) => (
          <li key={id}>
            <button type="button" className="link" onClick={() => selectPart(id)}>
              {partName(plan, id)}
            </button>
            <span className="note"> {list.join(' · ')}</span>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function CannotTell() {
  const plan = useApp((s) => s.plan);
  const results = useApp((s) => s.results);
  if (!plan || !results) return null;
  const { cannotTell, crashed } = results.report;
  if (cannotTell.length + crashed.length === 0) return null;
  const questions = missing(cannotTell);
  const line = ({ subject, needs, settles }: Question) => (
    <li key={`${subject.kind}:${subject.id}:${needs}`}>
      {subject.kind === 'plan' ? null : (
        <button type="button" className="link" onClick={() => selectSubject(subject)}>
          {subject.kind === 'part' ? partName(plan, subject.id) : `Wire ${wireName(results.filled, subject.id)}`}
        </button>
      )}
      <span className="note">
        {' '}
        needs {needs}
        {settles > 1 ? ` (settles ${settles} checks)` : ''}
      </span>
    </li>
  );
  const first = questions.slice(0, FIRST);
  const rest = questions.slice(FIRST);
  return (
    <Section title={`Worth finding out (${questions.length + crashed.length})`} folded={questions.length + crashed.length > FIRST}>
      <p className="note">Until then the worst is assumed where that can be done, and these checks cannot tell. First what settles most.</p>
      <ul className="plain-list">{first.map(line)}</ul>
      {rest.length > 0 ? (
        <details>
          <summary className="note">{rest.length} more</summary>
          <ul className="plain-list">{rest.map(line)}</ul>
        </details>
      ) : null}
      {crashed.length > 0 ? (
        <ul className="plain-list">
          {crashed.map((c) => (
            <li key={c.rule} className="note">
              The rule “{c.rule}” failed ({c.message}) and counts as not told.
            </li>
          ))}
        </ul>
      ) : null}
    </Section>
  );
}

type Open = FindingsReport['cannotTell'][number];
type Question = Pick<Open, 'subject' | 'needs'> & { readonly settles: number; readonly hazards: number };

/** The same missing fact asked by several rules is one question; what settles most checks, hazards first, leads. */
function missing(cannotTell: readonly Open[]): Question[] {
  const byFact = new Map<string, Question>();
  for (const { subject, needs, level } of cannotTell) {
    const key = `${subject.kind}:${subject.id}:${needs}`;
    const so = byFact.get(key);
    byFact.set(key, { subject, needs, settles: (so?.settles ?? 0) + 1, hazards: (so?.hazards ?? 0) + (level === 'hazard' ? 1 : 0) });
  }
  return [...byFact.values()].sort((a, b) => b.settles - a.settles || b.hazards - a.hazards);
}

function Aside() {
  const plan = useApp((s) => s.plan);
  const aside = useApp((s) => s.results?.report.aside);
  if (!plan || !aside || aside.length === 0) return null;
  return (
    <Section title={`Set aside (${aside.length})`} folded>
      <ul className="plain-list">
        {aside.map(({ card, reason }) => (
          <li key={card.key}>
            <b>{card.title}</b>
            <p className="note">“{reason}”</p>
            <button type="button" className="link" onClick={() => change(setAside(plan, card.key, undefined))}>
              Take it back
            </button>
          </li>
        ))}
      </ul>
    </Section>
  );
}
