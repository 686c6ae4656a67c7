import { useMemo } from 'react';
import { itemInHand, shelfItems } from '../shelf/catalogue.ts';
import { app, useApp } from '../state/store.ts';

/** Where the shelf is a drawer: what was taken from it and waits for its place, and the way to put it back. */
export function PlacingChip() {
  const placing = useApp((s) => s.placing);
  const item = useMemo(() => (placing ? itemInHand(shelfItems(), placing) : undefined), [placing]);
  if (!item) return null;
  return (
    <div className="plan-chip placing-chip" role="status">
      <span>
        <b>{item.title}</b>: tap its place.
      </span>
      <button type="button" className="btn" onClick={() => app.getState().setPlacing(null)}>
        Put it back
      </button>
    </div>
  );
}
