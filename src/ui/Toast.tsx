import { useEffect } from 'react';
import { Icon } from '../faces/Icon.tsx';
import { app, useApp } from '../state/store.ts';

/** How long a plain message stays, ms; problems and what is to be read with care stay until they are closed. */
const STAYS_MS = 6000;

/** What happened and what to do: a polite live region at the foot of the page. */
export function Toast() {
  const notice = useApp((s) => s.notice);
  useEffect(() => {
    if (!notice || notice.kind === 'problem' || notice.action || notice.stays) return;
    const timer = setTimeout(() => app.getState().setNotice(null), STAYS_MS);
    return () => clearTimeout(timer);
  }, [notice]);
  const close = () => app.getState().setNotice(null);
  return (
    <div className="toast-place" role="status" aria-live="polite">
      {notice ? (
        <div className={notice.also ? `toast ${notice.kind} choices` : `toast ${notice.kind}`}>
          <p>{notice.text}</p>
          {[...(notice.action ? [notice.action] : []), ...(notice.also ?? [])].map((action) => (
            <button
              key={action.label}
              type="button"
              className="btn"
              onClick={() => {
                close();
                action.run();
              }}
            >
              {action.label}
            </button>
          ))}
          <button type="button" className="btn quiet icon" aria-label="Close this message" onClick={close}>
            <Icon name="close" size={16} />
          </button>
        </div>
      ) : null}
    </div>
  );
}
