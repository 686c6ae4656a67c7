import { showSince, useSince } from '../state/since.ts';
import './since.css';

/** Over the drawing: that it shows only what changed, what its marks mean, and the way back. */
export function SinceChip() {
  const number = useSince((s) => s.number);
  const counts = useSince((s) => s.counts);
  if (number === null) return null;
  return (
    <div className="plan-chip since-chip" role="status">
      <span>
        Changed since revision {number}
        {counts ? ':' : ' …'}
      </span>
      {counts ? (
        <>
          <span className="since-mark">
            <svg viewBox="-11 -11 22 22" aria-hidden="true">
              <circle r="9" />
              <path d="M-5 0H5M0-5V5" />
            </svg>
            {counts.added} new
          </span>
          <span className="since-mark">
            <svg viewBox="-11 -11 22 22" aria-hidden="true">
              <path className="body" d="M0-10 10 0 0 10-10 0Z" />
              <circle className="hole" r="3" />
            </svg>
            {counts.changed} changed
          </span>
          <span className="since-mark">
            <svg viewBox="-11 -11 22 22" aria-hidden="true">
              <rect x="-8" y="-8" width="16" height="16" />
              <path d="M-4-4 4 4M4-4-4 4" />
            </svg>
            {counts.removed} taken out
          </span>
          {counts.facts === 0 ? null : (
            <span title="They are listed with the revisions of the job">{`${counts.facts} ${counts.facts === 1 ? 'fact or limit' : 'facts or limits'} changed`}</span>
          )}
        </>
      ) : null}
      <button type="button" className="btn quiet" onClick={() => void showSince(null)}>
        Show everything
      </button>
    </div>
  );
}
