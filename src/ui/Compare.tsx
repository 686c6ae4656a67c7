import { useEffect, useMemo, useRef } from 'react';
import { letterOf } from '../plan/alternatives.ts';
import { compareWirings, type Side } from '../sheet/compare/index.ts';
import { openPlan } from '../state/page.ts';
import { app, useApp } from '../state/store.ts';
import { CompareDrawings } from './CompareDrawings.tsx';
import { CompareTables } from './CompareTables.tsx';
import { useOther } from './useOther.ts';
import { useOtherWirings } from './Wirings.tsx';
import './compare.css';

/** Two wirings of the open plan side by side: figures, what is bought, what differs, findings, drawings. */
export default function Compare({ id, onClose }: { readonly id: string; onClose(): void }) {
  const plan = useApp((s) => s.plan);
  const results = useApp((s) => (s.looking || s.resultsFor !== s.plan ? null : s.results));
  const margins = useApp((s) => (s.margins.resultFor === s.plan ? s.margins.result : null));
  const lengths = useApp((s) => s.units.length);
  const failed = useApp((s) => s.workerError);
  const others = useOtherWirings();
  const other = useOther(id);
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => back.current?.focus(), []);
  useEffect(() => app.getState().watch('margins'), []);

  const sides = useMemo((): readonly [Side, Side] | null => {
    if (!plan || !results || !other.plan || !other.results) return null;
    const open: Side = { letter: letterOf(plan), results, margins };
    const kept: Side = { letter: letterOf(other.plan), results: other.results, margins: other.margins };
    return open.letter <= kept.letter ? [open, kept] : [kept, open];
  }, [plan, results, margins, other]);
  const comparison = useMemo(() => sides && compareWirings(sides[0], sides[1], lengths), [sides, lengths]);

  if (!plan) return null;
  const theirs = others.find((o) => o.id === id);
  const letters = [letterOf(plan), theirs ? letterOf(theirs) : other.plan ? letterOf(other.plan) : '…'].sort();
  const problem = other.problem ?? (results ? null : failed);
  return (
    <main
      className="compare"
      aria-label="Two wirings compared"
      onKeyDown={(e) => {
        if (e.key === 'Escape' && !e.defaultPrevented) onClose();
      }}
    >
      <header className="sheet-bar">
        <button ref={back} type="button" className="btn" onClick={onClose}>
          ‹ Back to wiring {letterOf(plan)}
        </button>
        <h1>
          Wiring {letters[0]} and {letters[1]}
        </h1>
        {others.length > 1 ? (
          <label className="inline">
            Compare with
            <select className="input" value={id} onChange={(e) => app.getState().setComparing(e.currentTarget.value)}>
              {others.map((o) => (
                <option key={o.id} value={o.id}>
                  {`${letterOf(o)} · ${o.title || 'Untitled plan'}`}
                </option>
              ))}
            </select>
          </label>
        ) : null}
        {theirs ? (
          <button
            type="button"
            className="btn compare-open"
            onClick={() => {
              void openPlan(theirs.id).then((opened) => opened && onClose());
            }}
          >
            Open wiring {letterOf(theirs)}
          </button>
        ) : null}
      </header>
      <div className="compare-body">
        {comparison && sides ? (
          <>
            <CompareTables comparison={comparison} titles={sides.map((s) => s.results.filled.title) as [string, string]} />
            <CompareDrawings sides={sides} comparison={comparison} />
          </>
        ) : (
          <p className={problem ? 'note wrong' : 'note'} role="status">
            {problem ?? 'Both wirings are being worked out …'}
          </p>
        )}
      </div>
    </main>
  );
}
