import { TermText } from '../faces/TermText.tsx';
import { app, useApp } from '../state/store.ts';
import type { TimeTask } from '../state/types.ts';

interface Props {
  readonly task: TimeTask;
  /** "Key cycle". */
  readonly what: string;
}

/** How far one calculation is, with a way to stop it. */
export function Progress({ task, what }: Props) {
  const busy = useApp((s) => s[task].busy);
  const share = useApp((s) => s[task].share);
  if (!busy) return null;
  return (
    <p className="progress busy">
      <label>
        {what} <progress value={share} max={1} />
      </label>
      <span className="progress-share">{Math.round(share * 100)} %</span>
      <button type="button" className="btn" onClick={() => app.getState().cancel(task)}>
        Stop
      </button>
    </p>
  );
}

/** Why there is no result for what is asked, with a way to get one; nothing while it is being worked out. */
export function NotDone({ task, what, isOld }: Props & { readonly isOld: boolean }) {
  const busy = useApp((s) => s[task].busy);
  const error = useApp((s) => s[task].error);
  // Before anybody has asked, nothing is missing.
  const asked = useApp((s) => s.watched[task] > 0);
  if (busy || !asked || (error === null && !isOld)) return null;
  return (
    <p className="progress">
      {error === null ? (
        <span className="note">{what}: stopped before it was done.</span>
      ) : (
        <span className="note wrong" role="alert">
          {what}: <TermText text={error} />
        </span>
      )}
      <button type="button" className="btn" onClick={() => app.getState().again(task)}>
        {error === null ? 'Work it out' : 'Try again'}
      </button>
    </p>
  );
}
