import { useState } from 'react';
import type { EventReport } from '../analysis/time/types.ts';
import { Section } from '../faces/Section.tsx';
import { Term } from '../faces/Term.tsx';
import { EVENT_WORDS, eventsAnswer, findingOf, isBeyond, peakText, STRESS_WORDS, type StressRow, shareText, worstStresses } from '../sheet/timing/events.ts';
import { stuckText } from '../sheet/timing/words.ts';
import { app, useApp } from '../state/store.ts';
import { selectPart } from './actions.ts';
import { EventPlot } from './EventPlot.tsx';
import { itemOf, partName } from './lookup.ts';
import { runOnDemand } from './onDemand.ts';

/** Rows shown before "show all". */
const FEW = 8;

/** What surges, dips and a reversed battery do to the parts: peak, limit and share, worst first. */
export function Events({ onShowFinding }: { onShowFinding(key: string): void }) {
  const { result, busy, share, error } = useApp((s) => s.events);
  const isOld = useApp((s) => s.events.result !== null && s.events.resultFor !== s.plan);
  return (
    <Section title="Surges, dips, reversed battery">
      <p className="note">
        Plays starting, <Term word="load dump">load dump</Term>, <Term word="jump start">jump start</Term>, a failed regulator, a reversed battery and the
        pulses of switched coils through the plan, and notes what each part gets.
      </p>
      <div className="row">
        {busy ? (
          <>
            <label className="spread-progress">
              Events <progress value={share} max={1} /> {Math.round(share * 100)} %
            </label>
            <button type="button" className="btn" onClick={() => app.getState().cancel('events')}>
              Stop
            </button>
          </>
        ) : (
          <button type="button" className="btn" onClick={() => runOnDemand('events')}>
            {result ? 'Play them again' : 'Play the events'}
          </button>
        )}
      </div>
      {error !== null ? (
        <p className="note wrong" role="alert">
          {error}
        </p>
      ) : null}
      {isOld && !busy ? <p className="note wrong">Of the plan before its last change.</p> : null}
      {result ? <Told reports={result} onShowFinding={onShowFinding} /> : null}
    </Section>
  );
}

function Told({ reports, onShowFinding }: { readonly reports: readonly EventReport[]; onShowFinding(key: string): void }) {
  const [picked, setPicked] = useState('all');
  const plan = useApp((s) => s.plan);
  const filled = useApp((s) => s.results?.filled);
  const event = reports.find((r) => r.profile === picked) ?? null;
  if (!plan) return null;
  const nameOf = (part: string): string => `${itemOf(filled, part)} ${partName(plan, part)}`.trim();
  const rows = event ? event.stress.map((stress): StressRow => ({ stress, event })) : worstStresses(reports);
  const stuck = (event ? [event] : reports).flatMap((r) => {
    const text = stuckText(r);
    return text === null ? [] : [{ id: r.profile, text: event ? text : `${EVENT_WORDS[r.profile]}: ${text}` }];
  });
  return (
    <>
      <p>{eventsAnswer(reports, nameOf)}</p>
      <label className="events-pick">
        Event{' '}
        <select className="input" value={event ? picked : 'all'} onChange={(e) => setPicked(e.currentTarget.value)}>
          <option value="all">all, each figure’s worst</option>
          {reports.map((r) => (
            <option key={r.profile} value={r.profile}>
              {EVENT_WORDS[r.profile]}
            </option>
          ))}
        </select>
      </label>
      {event ? <EventPlot event={event} /> : null}
      {stuck.map((s) => (
        <p key={s.id} className="note wrong">
          {s.text}
        </p>
      ))}
      {rows.length === 0 ? (
        <p className="note">No part gets more than before.</p>
      ) : (
        <Rows key={picked} rows={rows} named={!event} nameOf={nameOf} onShowFinding={onShowFinding} />
      )}
      <p className="note">
        Behind the stiffest source of each test, parts in the middle of their tolerance. What a part does once it is past its limit nobody knows.
      </p>
    </>
  );
}

function Rows({
  rows,
  named,
  nameOf,
  onShowFinding,
}: {
  readonly rows: readonly StressRow[];
  readonly named: boolean;
  nameOf(part: string): string;
  onShowFinding(key: string): void;
}) {
  const report = useApp((s) => s.results?.report);
  const plan = useApp((s) => s.plan);
  const [all, setAll] = useState(false);
  const beyond = rows.filter((r) => isBeyond(r.stress)).length;
  const shown = all ? rows : rows.slice(0, Math.max(FEW, beyond));
  return (
    <>
      <table className="plain events">
        <caption className="hidden-text">Peak of each part, worst first</caption>
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col" className="num">
              peak, of limit
            </th>
            <th scope="col" className="num">
              share
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ stress, event }) => {
            const finding = findingOf(stress, report?.findings ?? []);
            const card = finding && report?.cards.find((c) => c.findings.includes(finding) || c.folded.includes(finding));
            return (
              <tr key={`${event.profile}:${stress.part}:${stress.kind}`}>
                <th scope="row">
                  {plan?.parts[stress.part] ? (
                    <button type="button" className="link" onClick={() => selectPart(stress.part)}>
                      {nameOf(stress.part)}
                    </button>
                  ) : (
                    nameOf(stress.part)
                  )}
                  <div className="note">
                    {STRESS_WORDS[stress.kind]}
                    {named ? `, ${EVENT_WORDS[event.profile].toLowerCase()}` : ''}
                  </div>
                  {card && isBeyond(stress) ? (
                    <>
                      {' '}
                      <button type="button" className="link" onClick={() => onShowFinding(card.key)}>
                        {card.title}
                      </button>
                    </>
                  ) : null}
                </th>
                <td className="num">{peakText(stress)}</td>
                <td className={isBeyond(stress) ? 'num lvl-hazard' : 'num'}>{shareText(stress)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {shown.length < rows.length ? (
        <button type="button" className="link" onClick={() => setAll(true)}>
          Show all {rows.length}
        </button>
      ) : null}
    </>
  );
}
