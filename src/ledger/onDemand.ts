import { app } from '../state/store.ts';
import type { TimeTask } from '../state/types.ts';

/**
 * Has something in time of the open plan worked out. It goes on when its face is left, and ends when it is done, stopped
 * or failed: after that a change of the plan does not start it again by itself.
 */
export function runOnDemand(task: TimeTask): void {
  if (app.getState().watched[task] > 0) return;
  app.getState().again(task);
  const unwatch = app.getState().watch(task);
  if (!app.getState()[task].busy) {
    unwatch();
    return;
  }
  const leave = app.subscribe((state) => {
    if (state[task].busy) return;
    leave();
    unwatch();
  });
}
