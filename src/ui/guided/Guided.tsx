import { useEffect, useRef, useState } from 'react';
import type { Check, StepState } from '../../advise/guide/types.ts';
import { leaveOut } from '../../advise/guide/wishes.ts';
import { TermText } from '../../faces/TermText.tsx';
import { change, pointAt, pointAway } from '../../ledger/actions.ts';
import { lookAt } from '../../ledger/lookAt.ts';
import { setStage } from '../../plan/edits.ts';
import type { Edit } from '../../plan/types.ts';
import { app } from '../../state/store.ts';
import { type GuideNow, useGuide } from './useGuide.ts';
import './guided.css';

interface Ways {
  /** Something is shown on the drawing. */
  onShown?(): void;
  onSheet(): void;
  /** Asks for the list of the stage where the plan stands. */
  onJob(): void;
  onHide(): void;
}

/** The guided build: the step to do first, then all steps with how they stand. */
export default function Guided(ways: Ways) {
  const [at, setAt] = useState<string | null>(null);
  const now = useGuide(at);
  const top = useRef<HTMLElement>(null);
  const shown = now?.guide.current?.step.id;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another step is read from its top
  useEffect(() => {
    top.current?.closest('.drawer-scroll, .ledger-body')?.scrollTo({ top: 0 });
  }, [shown]);
  if (!now) return <p className="note guided-wait">Being worked out …</p>;
  const { guide } = now;
  return (
    <section ref={top} className="guided" aria-label="Guided build">
      <header className="guided-head">
        <progress max={guide.total} value={guide.done} aria-label="Steps done" />
        <span className="note">
          {guide.done} of {guide.total}
        </span>
        <button type="button" className="btn quiet" onClick={ways.onHide}>
          Hide<span className="hidden-text"> the guide</span>
        </button>
      </header>
      {guide.current ? (
        <Step key={guide.current.step.id} now={now} state={guide.current} ways={ways} onTaken={() => setAt(null)} />
      ) : (
        <AllDone onSheet={ways.onSheet} />
      )}
      {at === null ? null : (
        <button type="button" className="link" onClick={() => setAt(null)}>
          To the first open step
        </button>
      )}
      <ol className="guided-steps" aria-label="All steps">
        {guide.steps.map((s) => (
          <li key={s.step.id}>
            <button type="button" {...(s === guide.current ? { 'aria-current': 'step' as const } : {})} onClick={() => setAt(s.step.id)}>
              <Mark met={s.done} out={s.leftOut} />
              <span>{s.step.title}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Step({ now, state, ways, onTaken }: { readonly now: GuideNow; readonly state: StepState; readonly ways: Ways; onTaken(): void }) {
  const { step, offer, about, done, leftOut, checks } = state;
  const { wish } = step;
  const { onShown, onSheet, onJob } = ways;
  const away = step.stage !== 'draw';
  return (
    <article className="guided-step" aria-labelledby="guided-title">
      <h3 id="guided-title">{step.title}</h3>
      <p>
        <TermText text={step.todo} />
      </p>
      <p className="soft">
        <TermText text={step.why} />
      </p>
      {leftOut ? <p className="note">Left out of this build.</p> : <Checks checks={checks} />}
      {offer?.ask ? <p className="note guided-ask">This answers for you, or changes what was chosen: press it only if it is so.</p> : null}
      <div className="guided-acts">
        {offer && !leftOut ? (
          <button
            type="button"
            className="btn main"
            aria-disabled={now.busy}
            onClick={() => {
              if (now.busy) return;
              if (change(offer.edit) !== null) return;
              selectNew(offer.edit);
              onTaken();
            }}
          >
            {now.busy ? 'One moment …' : offer.title}
          </button>
        ) : null}
        {step.stage === 'keep' ? (
          <button type="button" className="btn" onClick={onSheet}>
            Open the wiring sheet
          </button>
        ) : null}
        {away ? (
          <button
            type="button"
            className="btn"
            onClick={() => {
              const { plan } = app.getState();
              if (plan && plan.stage !== step.stage) change(setStage(plan, step.stage));
              onJob();
            }}
          >
            Open the whole list
          </button>
        ) : null}
        {about.parts.length + about.wires.length > 0 ? (
          <button
            type="button"
            className="btn"
            onClick={() => {
              lookAt(about, onShown ? 'all' : 'free');
              onShown?.();
            }}
          >
            Show on the plan
          </button>
        ) : null}
        {wish && !done ? (
          <button type="button" className="btn" onClick={() => change(leaveOut(app.getState().plan ?? now.plan, wish, !leftOut))}>
            {leftOut ? 'Take it in after all' : 'Not in this build'}
          </button>
        ) : null}
      </div>
      {done || leftOut ? null : (
        <details>
          <summary>By hand</summary>
          <p>
            <TermText text={step.byHand} />
          </p>
        </details>
      )}
    </article>
  );
}

function Checks({ checks }: { readonly checks: readonly Check[] }) {
  return (
    <ul className="guided-checks">
      {checks.map((c) => (
        <li key={c.text} onPointerEnter={() => pointAt(c.about)} onPointerLeave={pointAway}>
          <Mark met={c.met} />
          <span>
            {c.rule ? <b>{c.rule}. </b> : null}
            {c.text}
          </span>
        </li>
      ))}
    </ul>
  );
}

/** A square, hollow or filled, with its word for those who do not see it. */
function Mark({ met, out = false }: { readonly met: boolean; readonly out?: boolean }) {
  return (
    <span className={out ? 'guided-mark out' : met ? 'guided-mark met' : 'guided-mark'}>
      <span className="hidden-text">{out ? 'Left out: ' : met ? 'Done: ' : 'Open: '}</span>
    </span>
  );
}

function AllDone({ onSheet }: { onSheet(): void }) {
  return (
    <article className="guided-step">
      <h3>Every step is done</h3>
      <p>What no drawing can show, such as a crimp that holds, stands on the wiring sheet’s checklist.</p>
      <div className="guided-acts">
        <button type="button" className="btn main" onClick={onSheet}>
          Open the wiring sheet
        </button>
      </div>
    </article>
  );
}

/** What an offer has added is what the person wants to see. */
function selectNew(edit: Edit): void {
  const made = edit.changes.filter((c) => c.table === 'parts' && c.before === null);
  const parts = made.flatMap((c) => (c.table === 'parts' ? [c.id] : []));
  if (parts.length > 0) lookAt({ parts, wires: [] });
}
