import { TermText } from '../faces/TermText.tsx';
import { app, useApp } from '../state/store.ts';
import type { TimeTask } from '../state/types.ts';

/** How far one calculation is, with a way to stop it; after it was stopped or failed, a way to start it again. */
export function Progress({ task, what }: { readonly task: TimeTask /** "Key cycle". */; readonly what: string }) {
  const busy = useApp((s) => s[task].busy);
  const share = useApp((s) => s[task].share);
  const error = useApp((s) => s[task].error);
  const isOld = useApp((s) => s[task].resultFor !== s.plan || s[task].result === null);
  if (busy)
    return (
      <p className="progress">
        <label>
          {what} <progress value={share} max={1} />
        </label>
        <span className="progress-share">{Math.round(share * 100)} %</span>
        <button type="button" className="btn" onClick={() => app.getState().cancel(task)}>
          Stop
        </button>
      </p>
    );
  if (error !== null)
    return (
      <p className="progress">
        <span className="note wrong" role="alert">
          {what}: <TermText text={error} />
        </span>
        <button type="button" className="btn" onClick={() => app.getState().again(task)}>
          Try again
        </button>
      </p>
    );
  if (isOld)
    return (
      <p className="progress">
        <span className="note">{what}: stopped before it was done.</span>
        <button type="button" className="btn" onClick={() => app.getState().again(task)}>
          Work it out
        </button>
      </p>
    );
  return null;
}
