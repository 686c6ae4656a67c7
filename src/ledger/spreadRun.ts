import { app } from '../state/store.ts';

/**
 * Has the spread of the open plan worked out. It goes on when its face is left, and ends when it is done, stopped or
 * failed: after that a change of the plan does not start it again by itself.
 */
export function runSpread(): void {
  if (app.getState().watched.spread > 0) return;
  app.getState().again('spread');
  const unwatch = app.getState().watch('spread');
  if (!app.getState().spread.busy) {
    unwatch();
    return;
  }
  const leave = app.subscribe((state) => {
    if (state.spread.busy) return;
    leave();
    unwatch();
  });
}
