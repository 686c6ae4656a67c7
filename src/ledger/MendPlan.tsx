import { useEffect, useRef, useState } from 'react';
import type { MendedPlan } from '../advise/mendPlan.ts';
import { count } from '../faces/format.ts';
import { LevelMark } from '../faces/LevelMark.tsx';
import { fetchedNow, later } from '../faces/useLater.ts';
import type { Plan } from '../plan/types.ts';
import { app, useApp } from '../state/store.ts';
import { change, selectSubject } from './actions.ts';
import { EffectLines } from './EffectLines.tsx';

/** Fewer cards than this are mended one by one. */
const WORTH = 2;

const mendCode = later('What mends a whole plan', () => import('../advise/mendPlan.ts'));

type Stage = { readonly at: 'idle' } | { readonly at: 'trying'; readonly made: number } | { readonly at: 'offered' | 'done'; readonly offer: MendedPlan };

/** Everything that can be mended without asking: worked out first, shown with what it changes, then done as one undo. */
export function MendPlan() {
  const plan = useApp((s) => s.plan);
  const current = useApp((s) => s.resultsFor === s.plan && !s.looking);
  const open = useApp((s) => s.results?.report.cards.filter((c) => c.level !== 'advice').length ?? 0);
  const [stage, setStage] = useState<Stage>({ at: 'idle' });
  const stopped = useRef(false);
  const forPlan = useRef<Plan | null>(null);

  // An offer belongs to the plan it was worked out for; a report of what was done stays until the next change.
  useEffect(() => {
    if (plan === forPlan.current) return;
    stopped.current = true;
    setStage({ at: 'idle' });
  }, [plan]);

  const work = async () => {
    const { plan: now, results, resultsFor, looking } = app.getState();
    if (!now || !results || resultsFor !== now || looking) return;
    forPlan.current = now;
    stopped.current = false;
    setStage({ at: 'trying', made: 0 });
    const code = await fetchedNow(mendCode, () => void work());
    if (!code) setStage({ at: 'idle' });
    if (!code || stopped.current) return;
    const steps = code.mendPlan(now, results);
    let step = steps.next();
    while (!step.done) {
      setStage({ at: 'trying', made: step.value });
      // The page draws what was told and hears a stop.
      await new Promise((drawn) => setTimeout(drawn));
      if (stopped.current) return;
      step = steps.next();
    }
    setStage({ at: 'offered', offer: step.value });
  };

  if (stage.at === 'trying')
    return (
      <p className="row mend-plan" role="status">
        <span className="note">Trying repairs: {stage.made} so far …</span>
        <button
          type="button"
          className="btn quiet"
          onClick={() => {
            stopped.current = true;
            setStage({ at: 'idle' });
          }}
        >
          Stop
        </button>
      </p>
    );
  if (stage.at === 'offered' || stage.at === 'done')
    return (
      <Offer
        offer={stage.offer}
        done={stage.at === 'done'}
        current={current}
        onDo={() => {
          if (!stage.offer.edit || change(stage.offer.edit) !== null) return;
          forPlan.current = app.getState().plan;
          setStage({ at: 'done', offer: stage.offer });
        }}
        onLeave={() => setStage({ at: 'idle' })}
      />
    );
  if (open < WORTH) return null;
  return (
    <p className="row mend-plan">
      <button type="button" className="btn" disabled={!current} onClick={() => void work()}>
        Mend all that needs no asking …
      </button>
    </p>
  );
}

function Offer({
  offer,
  done,
  current,
  onDo,
  onLeave,
}: {
  readonly offer: MendedPlan;
  readonly done: boolean;
  readonly current: boolean;
  onDo(): void;
  onLeave(): void;
}) {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus(), []);
  const { steps, before, after, questions } = offer;
  return (
    <section className="card mend-plan" aria-label="Mend all">
      <h3 ref={head} tabIndex={-1}>
        {steps.length === 0
          ? 'Nothing can be mended without asking you'
          : done
            ? `${count(steps.length, 'repair')} made`
            : `${count(steps.length, 'repair')} can be made at once`}
      </h3>
      <div className="row">
        {done || steps.length === 0 ? null : (
          <button type="button" className="btn main" disabled={!current} onClick={onDo}>
            Make {steps.length === 1 ? 'it' : `all ${steps.length}`}
          </button>
        )}
        <button type="button" className="btn quiet" onClick={onLeave}>
          {done || steps.length === 0 ? 'Close' : 'Leave it'}
        </button>
      </div>
      {steps.length > 0 ? (
        <>
          <p className="note">
            Counted place by place: hazards {before.hazards} → {after.hazards}, faults {before.faults} → {after.faults}.{' '}
            {done ? 'One undo takes all back.' : ''}
          </p>
          <ul className="bullets">
            {steps.map((s, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the same repair may be made twice, the order is fixed
              <li key={i}>
                <b>{s.done}.</b> <span className="note">{s.what}</span>
              </li>
            ))}
          </ul>
          <EffectLines effect={{ ...offer.effect, figures: offer.effect.figures.filter((f) => f.label !== 'Hazards' && f.label !== 'Faults') }} />
        </>
      ) : null}
      {questions.length > 0 ? (
        <details>
          <summary>Left for you to decide ({questions.length})</summary>
          <ul className="plain-list">
            {questions.map(({ finding, offers }) => (
              <li key={`${finding.rule}:${finding.subject.id}`}>
                <LevelMark level={finding.level} size={14} />{' '}
                <button type="button" className="link" onClick={() => selectSubject(finding.subject)}>
                  {finding.what}
                </button>
                <span className="note"> {offers.length > 0 ? `${offers.join(', or ')}?` : finding.todo}</span>
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}
