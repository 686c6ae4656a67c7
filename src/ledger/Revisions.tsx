import { useEffect, useId, useRef, useState } from 'react';
import { changeLines } from '../advise/changeWords.ts';
import { changesSince, untold } from '../advise/since.ts';
import { letterOf } from '../analysis/views.ts';
import { count } from '../faces/format.ts';
import { today } from '../faces/today.ts';
import { makeRevision, revisionsOf, thinRevision } from '../plan/edits.ts';
import { LONGEST } from '../plan/limits.ts';
import type { Revision } from '../plan/types.ts';
import { showSince, useSince } from '../state/since.ts';
import { app, useApp } from '../state/store.ts';
import { change } from './actions.ts';
import { whenCurrent } from './useJob.ts';
import './revisions.css';

/** Makes revisions, lists them, and shows on the drawing what changed since one of them. */
export default function Revisions() {
  const plan = useApp((s) => s.plan);
  const shown = useSince((s) => s.number);
  const newest = useRef<HTMLLIElement>(null);
  const made = plan ? revisionsOf(plan).length : 0;
  const before = useRef(made);
  // One that was made just now may lie below the edge of the list.
  useEffect(() => {
    if (made > before.current) newest.current?.scrollIntoView({ block: 'nearest' });
    before.current = made;
  }, [made]);
  if (!plan) return null;
  const list = [...revisionsOf(plan)].reverse();
  return (
    <div className="revisions">
      <p className="soft">
        A revision keeps the build as it stands today. From then on numbers are fixed, and drawing and sheet can show only what changed since.
      </p>
      <Make />
      {list.length === 0 ? <p className="note">No revision yet. Make the first when the sheet goes out of the house or the build is in the vehicle.</p> : null}
      <ul>
        {list.map((revision, i) => (
          <li key={revision.id} ref={i === 0 ? newest : null}>
            <Row revision={revision} shown={shown === revision.number} />
          </li>
        ))}
      </ul>
      {shown === null ? null : <Changes number={shown} />}
    </div>
  );
}

function Make() {
  const [note, setNote] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const id = useId();
  const make = (): void => {
    setBusy(true);
    setProblem(null);
    // What is kept are the figures of the plan as it stands.
    whenCurrent(
      () => {
        setBusy(false);
        const { plan, results } = app.getState();
        if (!plan || !results) return;
        const made = makeRevision(plan, results.filled, letterOf, { date: today(), note });
        const refused = made.ok ? change(made.edit) : made.reason;
        if (refused === null) setNote('');
        else setProblem(refused);
      },
      () => setBusy(false),
    );
  };
  return (
    <form
      onSubmit={(e) => {
        e.preventDefault();
        make();
      }}
    >
      <label htmlFor={id}>What this revision is about</label>
      <div className="row">
        <input id={id} className="input" maxLength={LONGEST.revisionNote} value={note} onChange={(e) => setNote(e.currentTarget.value)} />
        <button type="submit" className="btn" disabled={busy}>
          Make a revision
        </button>
      </div>
      {problem === null ? null : (
        <p className="note wrong" role="alert">
          No revision was made: {problem}.
        </p>
      )}
    </form>
  );
}

function Row({ revision, shown }: { readonly revision: Revision; readonly shown: boolean }) {
  const { number, date, note, was, id } = revision;
  return (
    <>
      <span>
        <b>Revision {number}</b>, {date}
        {note === '' ? '' : `: ${note}`}
      </span>
      {was ? (
        <span className="tools">
          <button type="button" className="btn quiet" aria-pressed={shown} onClick={() => void showSince(shown ? null : number)}>
            {shown ? 'Show everything again' : 'Show what changed since'}
            <span className="hidden-text"> revision {number}</span>
          </button>
          <button
            type="button"
            className="btn quiet"
            title="Keeps number, date and note, and makes room"
            onClick={() => {
              const { plan } = app.getState();
              if (plan) change(thinRevision(plan, id));
            }}
          >
            Let go<span className="hidden-text"> of what revision {number} looked like</span>
          </button>
        </span>
      ) : (
        <span className="note">Its looks were let go.</span>
      )}
    </>
  );
}

const WORDS = { added: 'New', changed: 'Changed', removed: 'Taken out' } as const;

/** The same changes in words, for those who do not see the drawing. */
function Changes({ number }: { readonly number: number }) {
  const filled = useApp((s) => (s.resultsFor === s.plan ? s.results?.filled : undefined));
  const since = filled ? changesSince(filled, number) : null;
  if (!filled || !since) return <p className="note">Being worked out …</p>;
  const lines = changeLines(filled, since);
  const unknown = untold(since);
  return (
    <section aria-label={`Changed since revision ${number}`}>
      <h4>
        Changed since revision {number}: {lines.length === 0 ? 'nothing' : count(lines.length, 'thing')}
      </h4>
      <ul className="change-lines">
        {lines.map((line) => (
          <li key={`${line.kind}:${line.id}`}>
            <b>{WORDS[line.what]}</b> {line.name}
            {line.words.length === 0 ? '' : `: ${line.words.join('; ')}`}
          </li>
        ))}
      </ul>
      {unknown === null ? null : <p className="note">{unknown}</p>}
    </section>
  );
}
