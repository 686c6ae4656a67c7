import { useId, useState } from 'react';
import type { OfferedRepair } from '../advise/index.ts';
import type { Card } from '../advise/types.ts';
import { LEVEL_WORD, LevelMark } from '../faces/LevelMark.tsx';
import { TermText } from '../faces/TermText.tsx';
import { keyFor, where } from '../faces/words.ts';
import { setAside } from '../plan/edits.ts';
import type { Plan } from '../plan/types.ts';
import type { Finding, Subject } from '../rules/types.ts';
import { app, useApp } from '../state/store.ts';
import { change, pointAt, pointAway, selectSubject } from './actions.ts';
import { describeEdit } from './describe.ts';
import { partName, wireName } from './lookup.ts';
import { useRepairs, useRule } from './useRepairs.ts';

/** Lines of a preview that are shown without being asked for. */
const FEW_LINES = 3;

/** One cause, one card: what with its numbers, why, what to do; ways to look at it, mend it or set it aside. */
export function FindingCard({ card }: { readonly card: Card }) {
  const [at, setAt] = useState(0);
  const [open, setOpen] = useState(false);
  const [asking, setAsking] = useState(false);
  const rule = useRule(card.rule, open);
  const finding = card.findings[Math.min(at, card.findings.length - 1)];
  if (!finding) return null;
  const many = card.findings.length;

  return (
    <article
      className={`card finding ${card.level}`}
      id={`finding-${card.key}`}
      tabIndex={-1}
      aria-label={`${LEVEL_WORD[card.level]}: ${card.title}`}
      onPointerEnter={() => pointAt([finding.subject, ...finding.related])}
      onPointerLeave={pointAway}
    >
      <header>
        <LevelMark level={card.level} size={22} />
        <h3>
          <span className={`level-word lvl-${card.level}`}>{LEVEL_WORD[card.level]}</span>
          {card.title}
          {many > 1 ? <span className="times"> ×{many}</span> : null}
        </h3>
      </header>
      {many > 1 ? <SubjectPicker findings={card.findings} at={at} onPick={setAt} /> : null}
      <p>
        <TermText text={finding.what} />
      </p>
      <p className="todo-line">
        <TermText text={finding.todo} />
      </p>
      {finding.state && finding.band ? <p className="note">Worst in {where(finding.state, finding.band)}.</p> : null}
      <Repairs finding={finding} />
      <div className="row">
        <button type="button" className="link" onClick={() => showMe(finding)}>
          Show me
        </button>
        <button type="button" className="link" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Less' : 'Why?'}
        </button>
        <button type="button" className="link" aria-expanded={asking} onClick={() => setAsking(!asking)}>
          Set aside …
        </button>
      </div>
      {open ? (
        <div className="why">
          {rule ? (
            <>
              <p>
                <TermText text={rule.why} />
              </p>
              <p className="note">
                Source: {rule.source.text} ({rule.source.grade}).
              </p>
            </>
          ) : (
            <p className="note">One moment …</p>
          )}
          {card.folded.length > 0 ? (
            <>
              <p className="note">The same cause also makes:</p>
              <ul className="bullets">
                {card.folded.map((f) => (
                  <li key={`${f.rule}:${f.subject.id}`}>{f.what}</li>
                ))}
              </ul>
            </>
          ) : null}
        </div>
      ) : null}
      {asking ? <AsideForm card={card} onDone={() => setAsking(false)} /> : null}
    </article>
  );
}

/** Turns the key and the band to where it is worst and selects the subject. */
export function showMe(finding: Finding): void {
  const { setKey, setBand } = app.getState();
  if (finding.state) setKey(keyFor(finding.state));
  if (finding.band) setBand(finding.band);
  selectSubject(finding.subject);
  pointAt([finding.subject, ...finding.related]);
}

function subjectName(subject: Subject): string {
  const { plan, results } = app.getState();
  if (!plan) return subject.id;
  if (subject.kind === 'part') return partName(plan, subject.id);
  if (subject.kind === 'wire') return `Wire ${results ? wireName(results.filled, subject.id) : subject.id}`;
  return 'The plan';
}

function SubjectPicker({ findings, at, onPick }: { readonly findings: readonly Finding[]; readonly at: number; onPick(at: number): void }) {
  const id = useId();
  return (
    <p className="row">
      <label htmlFor={id} className="note">
        At
      </label>
      <select id={id} className="input" value={at} onChange={(e) => onPick(Number(e.currentTarget.value))}>
        {findings.map((f, i) => (
          <option key={`${f.subject.kind}:${f.subject.id}:${f.what}`} value={i}>
            {subjectName(f.subject)}
          </option>
        ))}
      </select>
    </p>
  );
}

function Repairs({ finding }: { readonly finding: Finding }) {
  const plan = useApp((s) => s.plan);
  const current = useApp((s) => s.resultsFor === s.plan);
  const offers = useRepairs(finding);
  if (!plan || offers.length === 0) return null;
  return (
    <ul className="repairs">
      {offers.map((offer) => (
        <li key={offer.title}>
          <Repair offer={offer} plan={plan} current={current} />
        </li>
      ))}
    </ul>
  );
}

/** One repair with what it would change. One that changes what the person chose is asked about once more. */
function Repair({ offer, plan, current }: { readonly offer: OfferedRepair; readonly plan: Plan; readonly current: boolean }) {
  const [asking, setAsking] = useState(false);
  const lines = describeEdit(plan, offer.edit);
  if (asking)
    return (
      <div className="asking">
        <p>
          <b>{offer.title}?</b> This changes something you chose:
        </p>
        <ul className="note">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <div className="row">
          <button type="button" className="btn" disabled={!current} onClick={() => change(offer.edit)}>
            Change it
          </button>
          <button type="button" className="btn quiet" onClick={() => setAsking(false)}>
            Leave it
          </button>
        </div>
      </div>
    );
  return (
    <>
      <button type="button" className="btn" disabled={!current} onClick={() => (offer.safe ? change(offer.edit) : setAsking(true))}>
        {offer.title}
        {offer.safe ? '' : ' …'}
      </button>
      <Preview lines={lines} />
    </>
  );
}

/** What a repair would change: a few lines in full, many behind their count. */
function Preview({ lines }: { readonly lines: readonly string[] }) {
  const list = (
    <ul className="note">
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
  if (lines.length <= FEW_LINES) return list;
  return (
    <details className="preview">
      <summary className="note">Changes {lines.length} things</summary>
      {list}
    </details>
  );
}

function AsideForm({ card, onDone }: { readonly card: Card; onDone(): void }) {
  const id = useId();
  const [reason, setReason] = useState('');
  const [missing, setMissing] = useState(false);
  return (
    <form
      className="aside-form"
      onSubmit={(e) => {
        e.preventDefault();
        const { plan } = app.getState();
        if (reason.trim() === '') setMissing(true);
        else if (plan && change(setAside(plan, card.key, reason.trim())) === null) onDone();
      }}
    >
      <label htmlFor={id}>Why is this no concern here? It stays listed, and is printed with your reason.</label>
      <textarea id={id} className="input" rows={2} maxLength={300} value={reason} aria-invalid={missing} onChange={(e) => setReason(e.currentTarget.value)} />
      {missing ? (
        <p className="note wrong" role="alert">
          Say why in a few words: whoever reads the sheet later needs it.
        </p>
      ) : null}
      <div className="row">
        <button type="submit" className="btn">
          Set aside
        </button>
        <button type="button" className="btn quiet" onClick={onDone}>
          Leave it
        </button>
      </div>
    </form>
  );
}
