import { computeResults } from './advise/index.ts';
import type { Plan } from './plan/types.ts';

/** Computes plans off the page: `{ id, plan }` in, `{ id, results }` or `{ id, error }` out. */
self.addEventListener('message', (event: MessageEvent<{ readonly id: number; readonly plan: Plan }>) => {
  const { id, plan } = event.data;
  try {
    self.postMessage({ id, results: computeResults(plan) });
  } catch (error) {
    self.postMessage({ id, error: error instanceof Error ? error.message : String(error) });
  }
});
