import { useId, useState } from 'react';
import type { Card } from '../advise/types.ts';
import { LEVEL_WORD, LevelMark } from '../faces/LevelMark.tsx';
import { TermText } from '../faces/TermText.tsx';
import { keyFor, where } from '../faces/words.ts';
import { setAside } from '../plan/edits.ts';
import type { Finding, Subject } from '../rules/types.ts';
import { app } from '../state/store.ts';
import { change, pointAt, pointAway } from './actions.ts';
import { show } from './lookAt.ts';
import { partName, wireName } from './lookup.ts';
import { Repairs } from './Repairs.tsx';
import { useRule } from './useRepairs.ts';

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
      <Repairs finding={finding} all={card.findings} />
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
              <button type="button" className="link" onClick={() => app.getState().setBook(rule.id)}>
                In the rule book, with two drawings
              </button>
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
  show(finding.subject);
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
