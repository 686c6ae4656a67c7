import { Popover } from '../faces/Popover.tsx';
import { letterOf, wiringsOf } from '../plan/alternatives.ts';
import { openPlan, tryAnother } from '../state/page.ts';
import { app, useApp } from '../state/store.ts';
import type { PlanEntry } from '../state/types.ts';
import './wirings.css';

/** Which wiring of the plan is open, and the way to the others; nothing while there is only one. */
export function Wirings() {
  const others = useOtherWirings();
  const letter = useApp((s) => (s.plan ? letterOf(s.plan) : ''));
  if (others.length === 0) return null;
  return (
    <Popover
      name={`Wiring ${letter}: other wirings of this plan`}
      className="btn wirings"
      face={
        <>
          <span className="wirings-word">Wiring</span> <b>{letter}</b>
        </>
      }
    >
      {(close) => (
        <>
          <p className="over panel-head">Wirings of this plan</p>
          {others.map((o) => (
            <button key={o.id} type="button" className="panel-item" onClick={() => [close(), void openPlan(o.id)]}>
              {`Open ${letterOf(o)}`} <span className="note">{o.title || 'Untitled plan'}</span>
            </button>
          ))}
          {others.map((o) => (
            <button key={o.id} type="button" className="panel-item" onClick={() => [close(), app.getState().setComparing(o.id)]}>
              {`Compare ${[letter, letterOf(o)].sort().join(' with ')} …`}
            </button>
          ))}
          <button type="button" className="panel-item" onClick={() => [close(), void tryAnother()]}>
            Try another wiring
          </button>
        </>
      )}
    </Popover>
  );
}

/** Kept wirings of the open plan without itself, by letters. */
export function useOtherWirings(): readonly PlanEntry[] {
  const plans = useApp((s) => s.plans);
  const id = useApp((s) => s.plan?.id);
  const alternative = useApp((s) => s.plan?.alternative);
  if (id === undefined) return [];
  return wiringsOf({ id, ...(alternative ? { alternative } : {}) }, plans).filter((p) => p.id !== id);
}
