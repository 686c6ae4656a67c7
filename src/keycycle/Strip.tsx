import { useCallback, useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import type { KeyCycle } from '../analysis/time/types.ts';
import { Icon } from '../faces/Icon.tsx';
import { Term } from '../faces/Term.tsx';
import { keyFor, STATE_WORDS } from '../faces/words.ts';
import type { Id, Plan } from '../plan/types.ts';
import { keyAt, momentRows } from '../sheet/timing/moments.ts';
import type { TimeScale } from '../sheet/timing/scale.ts';
import { stuckText, timeText } from '../sheet/timing/words.ts';
import { app, useApp } from '../state/store.ts';
import { NotDone, Progress } from './Progress.tsx';
import { StripHead, useStop } from './StripHead.tsx';
import { StripMenu } from './StripMenu.tsx';
import { StripPlot } from './StripPlot.tsx';
import { StripTable } from './StripTable.tsx';
import { figuresAt } from './said.ts';
import { nameIn, useCycle } from './useCycle.ts';
import { usePlay } from './usePlay.ts';
import './strip.css';

/** The key cycle along the foot of the plan; folded it still says whether the computer stops in time. */
export function Strip({ open, onToggle }: { readonly open: boolean /** Absent where it cannot be folded. */; onToggle?(): void }) {
  const plan = useApp((s) => s.plan);
  useEffect(() => app.getState().watch('margins'), []);
  const nameOf = useMemo(() => (plan ? nameIn(plan) : (id: Id) => id), [plan]);
  if (!plan) return null;
  return (
    <section className={open ? 'strip open' : 'strip'} aria-label="Key cycle">
      <header className="strip-head">
        <h2>
          <Term word="key cycle">Key cycle</Term>
        </h2>
        <StripHead nameOf={nameOf} />
        {onToggle ? (
          <button
            type="button"
            className="btn quiet icon"
            aria-expanded={open}
            title={open ? 'Fold the key cycle' : 'Show the key cycle'}
            aria-label={open ? 'Fold the key cycle' : 'Show the key cycle'}
            onClick={onToggle}
          >
            <Icon name={open ? 'down' : 'up'} />
          </button>
        ) : null}
      </header>
      {open ? <Body plan={plan} nameOf={nameOf} /> : null}
    </section>
  );
}

function Body({ plan, nameOf }: { readonly plan: Plan; nameOf(part: Id): string }) {
  const [held, hold] = useState(false);
  const { cycle, scenario, isStale, moving, move, change } = useCycle(plan, held);
  const marginsOld = useApp((s) => s.margins.resultFor !== s.plan);
  const [cursor, setCursor] = useState<number | null>(null);
  const [follow, setFollow] = useState(false);
  const [asTable, setAsTable] = useState(false);
  const [scale, setScale] = useState<TimeScale | null>(null);
  const still = useReducedMotion();

  const look = useCallback(
    (tS: number) => {
      setCursor(tS);
      if (follow && cycle) app.getState().setKey(keyFor(keyAt(cycle, tS)));
    },
    [follow, cycle],
  );
  const end = scale?.stretches.at(-1)?.x1 ?? 0;
  const at = cursor === null ? null : Math.min(cursor, scenario.untilS);
  const { playing, play, pause } = usePlay(scale && at !== null ? scale.x(at) : 0, end, (x) => scale && look(scale.t(x)));
  const steps = useMemo(() => (cycle ? momentRows(cycle, nameOf).map((row) => row.tS) : []), [cycle, nameOf]);
  const before = steps.findLast((t) => t < (at ?? 0) - 1e-6);
  const after = steps.find((t) => t > (at ?? -1) + 1e-6);

  return (
    <div className="strip-body">
      <div className="strip-tools">
        {still ? null : (
          <button
            type="button"
            className="btn"
            disabled={!scale || asTable}
            onClick={() => {
              if (playing) pause();
              else {
                if (scale && (at === null || scale.x(at) >= end - 1)) look(0);
                play();
              }
            }}
          >
            <Icon name={playing ? 'pause' : 'play'} size={16} /> {playing ? 'Pause' : 'Play'}
          </button>
        )}
        <span className="strip-steps">
          <button
            type="button"
            className="btn quiet icon"
            title="Moment before"
            aria-label="Moment before"
            disabled={before === undefined}
            onClick={() => before !== undefined && look(before)}
          >
            <Icon name="stepBack" />
          </button>
          <button
            type="button"
            className="btn quiet icon"
            title="Next moment"
            aria-label="Next moment"
            disabled={after === undefined}
            onClick={() => after !== undefined && look(after)}
          >
            <Icon name="stepOn" />
          </button>
        </span>
        <label className="check">
          <input type="checkbox" checked={follow} onChange={(e) => setFollow(e.currentTarget.checked)} />
          Follow on the plan
        </label>
        <Readout cycle={cycle} at={at} nameOf={nameOf} />
        <button type="button" className={asTable ? 'btn on' : 'btn'} aria-pressed={asTable} disabled={!cycle} onClick={() => setAsTable(!asTable)}>
          As a table
        </button>
        <StripMenu plan={plan} scenario={scenario} nameOf={nameOf} change={change} />
      </div>
      <div className="strip-state">
        <div className="strip-busy">
          <Progress task="cycle" what="Key cycle" />
          <Progress task="margins" what="Worst case" />
        </div>
        <NotDone task="cycle" what="Key cycle" isOld={isStale && !moving} />
        <NotDone task="margins" what="Worst case" isOld={marginsOld} />
        {cycle && !isStale ? <Stuck cycle={cycle} /> : null}
      </div>
      {cycle && asTable ? <StripTable cycle={cycle} nameOf={nameOf} /> : null}
      {cycle && !asTable ? (
        <StripPlot
          plan={plan}
          cycle={cycle}
          scenario={scenario}
          isStale={isStale}
          nameOf={nameOf}
          cursorS={at}
          setCursor={look}
          move={move}
          held={held}
          hold={hold}
          onScale={setScale}
        />
      ) : null}
    </div>
  );
}

/** What stands under the cursor. */
function Readout({ cycle, at, nameOf }: { readonly cycle: KeyCycle | null; readonly at: number | null; nameOf(part: Id): string }) {
  const stop = useStop(nameOf);
  if (!cycle || at === null)
    return (
      <p className="strip-readout note">{stop && stop.detail !== '' ? `At worst: ${stop.detail}.` : 'Drag the knobs; press the strip to read a moment.'}</p>
    );
  return (
    <p className="strip-readout">
      <span>
        <b>{timeText(at)}</b> {STATE_WORDS[keyAt(cycle, at)]}
      </span>
      {figuresAt(cycle, at, nameOf).map((f) => (
        <span key={f.of}>
          {f.of} <b>{f.is}</b>
        </span>
      ))}
    </p>
  );
}

function Stuck({ cycle }: { readonly cycle: KeyCycle }) {
  const text = stuckText(cycle);
  return text === null ? null : <p className="note wrong">{text}</p>;
}

function useReducedMotion(): boolean {
  return useSyncExternalStore(
    (changed) => {
      const query = window.matchMedia('(prefers-reduced-motion: reduce)');
      query.addEventListener('change', changed);
      return () => query.removeEventListener('change', changed);
    },
    () => window.matchMedia('(prefers-reduced-motion: reduce)').matches,
  );
}
