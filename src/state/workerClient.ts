import type { Results } from '../advise/types.ts';
import type { Plan } from '../plan/types.ts';
import { sameElectric } from './electric.ts';
import type { App } from './store.ts';
import type { AppState } from './types.ts';

/** What is sent to the worker and what comes back. */
export interface WorkerRequest {
  readonly id: number;
  readonly plan: Plan;
}
export type WorkerReply = { readonly id: number; readonly results: Results } | { readonly id: number; readonly error: string };

/** The few things of a Worker that are used here, so that tests can bring their own. */
export interface WorkerPort {
  postMessage(request: WorkerRequest): void;
  terminate(): void;
  onmessage: ((event: { readonly data: WorkerReply }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

/** While dragging, at most one plan is sent in this time, ms. */
export const DRAG_MS = 100;
/** A worker that has not answered by then is replaced, ms. */
export const PATIENCE_MS = 30_000;

/** A worker of this app: it answers requests for results and for tasks in time. */
export function newWorker(): Worker {
  return new Worker(new URL('../worker.ts', import.meta.url), { type: 'module' });
}

export function spawnWorker(): WorkerPort {
  return newWorker() as WorkerPort;
}

/**
 * Keeps `results` of the store in step with its plan. One request is in the worker at a time and at most one waits:
 * the newest. Results are stored beside the plan object they belong to.
 * @returns a function that ends it.
 */
export function attachWorker(app: App, spawn: () => WorkerPort = spawnWorker): () => void {
  let port: WorkerPort | null = null;
  let serial = 0;
  let running: { readonly id: number; readonly plan: Plan } | null = null;
  let waiting: Plan | null = null;
  let lastAsked: Plan | null = null;
  let lastAskedAt = Number.NEGATIVE_INFINITY;
  let patience: ReturnType<typeof setTimeout> | undefined;
  let pause: ReturnType<typeof setTimeout> | undefined;

  const dropPort = (): void => {
    port?.terminate();
    port = null;
  };

  const finish = (patch: Partial<AppState>): void => {
    clearTimeout(patience);
    running = null;
    const next = waiting;
    waiting = null;
    app.setState({ busy: next !== null, ...patch });
    // A subscriber may have asked for something newer meanwhile.
    if (next && !running) send(next);
  };

  const fail = (message: string): void => {
    // The failing plan must not be taken for computed, or an undo back to it would wait for ever.
    lastAsked = waiting;
    finish({ workerError: message });
  };

  const onReply = (reply: WorkerReply): void => {
    if (!running || reply.id !== running.id) return;
    const { plan } = running;
    if ('error' in reply) {
      fail(reply.error);
      return;
    }
    const open = app.getState().plan;
    finish(open?.id === plan.id ? { results: reply.results, resultsFor: plan, workerError: null } : {});
  };

  const send = (plan: Plan): void => {
    serial += 1;
    running = { id: serial, plan };
    app.setState({ busy: true });
    patience = setTimeout(() => {
      dropPort();
      fail('The calculation took too long and was stopped. Change the plan to try again.');
    }, PATIENCE_MS);
    try {
      if (!port) {
        port = spawn();
        port.onmessage = (event) => onReply(event.data);
        port.onerror = (event) => {
          dropPort();
          if (running) fail(`The calculation stopped${event.message ? `: ${event.message}` : ''}. Change the plan to try again.`);
        };
      }
      port.postMessage(running);
    } catch (error) {
      dropPort();
      fail(`The calculation could not start: ${error instanceof Error ? error.message : String(error)}`);
    }
  };

  const ask = (plan: Plan): void => {
    clearTimeout(pause);
    pause = undefined;
    if (plan === lastAsked) return;
    lastAsked = plan;
    lastAskedAt = Date.now();
    if (running) waiting = plan;
    else send(plan);
  };

  const askWhileDragging = (plan: Plan): void => {
    clearTimeout(pause);
    pause = undefined;
    if (lastAsked && sameElectric(lastAsked, plan)) return;
    const left = lastAskedAt + DRAG_MS - Date.now();
    if (left <= 0) ask(plan);
    else pause = setTimeout(() => ask(plan), left);
  };

  const look = (plan: Plan | null, provisional: Plan | null): void => {
    if (provisional) askWhileDragging(provisional);
    else if (plan) ask(plan);
    else {
      clearTimeout(pause);
      waiting = null;
      lastAsked = null;
    }
  };

  const start = app.getState();
  look(start.plan, start.provisional);
  const unsubscribe = app.subscribe((state, before) => {
    if (state.plan !== before.plan || state.provisional !== before.provisional) look(state.plan, state.provisional);
  });
  return () => {
    unsubscribe();
    clearTimeout(pause);
    clearTimeout(patience);
    dropPort();
  };
}
