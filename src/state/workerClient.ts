import { type SecondLook, withSecondLook } from '../advise/secondLook.ts';
import type { Results } from '../advise/types.ts';
import type { PressedMoment } from '../analysis/pressed.ts';
import type { Id, Plan } from '../plan/types.ts';
import { sameElectric } from './electric.ts';
import { planKey } from './planKey.ts';
import { type RealWorker, shareWorker } from './sharedWorker.ts';
import { isMomentary } from './shown.ts';
import type { App } from './store.ts';
import type { AppState } from './types.ts';

/** What is sent to the worker: a plan, or a plan with buttons held down. */
export type WorkerRequest =
  | { readonly id: number; readonly kind?: undefined; readonly plan: Plan; readonly planKey: number }
  | { readonly id: number; readonly kind: 'pressed'; readonly plan: Plan; readonly pressed: readonly Id[] };
/** What comes back. */
export type WorkerReply =
  /** `more`: a second look follows, unless a newer plan is asked for before. */
  | { readonly id: number; readonly results: Results; readonly more?: boolean }
  | { readonly id: number; readonly look: SecondLook }
  | { readonly id: number; readonly moment: PressedMoment }
  | { readonly id: number; readonly error: string };

/** The few things of a Worker that are used here, so that tests can bring their own. */
export interface WorkerPort {
  postMessage(request: WorkerRequest): void;
  terminate(): void;
  onmessage: ((event: { readonly data: WorkerReply }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

/** While dragging, at most one plan is sent in this time, ms. */
export const DRAG_MS = 100;
/** First results wait so long for the second look, ms: it is seldom later, and the page is drawn once instead of twice. */
export const JOIN_MS = 40;
/** A worker that has not answered by then is replaced, ms. */
export const PATIENCE_MS = 30_000;

/** A worker of this app: it answers requests for results and for tasks in time. */
export function newWorker(): Worker {
  return new Worker(new URL('../worker.ts', import.meta.url), { type: 'module' });
}

/** Onto the one worker for results and the proof of repairs: two would compute side by side what one knows already. */
export const sharedPort = shareWorker(() => newWorker() as RealWorker);

/**
 * Keeps `results` of the store in step with its plan, and `momentary` with the buttons held down. One request is in the
 * worker at a time and at most one plan waits: the newest; where only the second look is left, it does not wait. A moment is asked for once its plan has its results. Both are
 * stored beside the plan object they belong to.
 * @returns a function that ends it.
 */
export function attachWorker(app: App, spawn: () => WorkerPort = () => sharedPort() as WorkerPort): () => void {
  let port: WorkerPort | null = null;
  let serial = 0;
  let running: WorkerRequest | null = null;
  let waiting: Plan | null = null;
  let lastAsked: Plan | null = null;
  let lastAskedAt = Number.NEGATIVE_INFINITY;
  let patience: ReturnType<typeof setTimeout> | undefined;
  let pause: ReturnType<typeof setTimeout> | undefined;
  /** First results whose second look is still to come. */
  let first: Results | null = null;
  let join: ReturnType<typeof setTimeout> | undefined;

  const dropPort = (): void => {
    port?.terminate();
    port = null;
  };

  const finish = (patch: Partial<AppState>): void => {
    clearTimeout(patience);
    clearTimeout(join);
    running = null;
    first = null;
    const next = waiting;
    waiting = null;
    app.setState({ busy: next !== null, ...patch });
    // A subscriber may have asked for something newer meanwhile.
    if (running) return;
    if (next) send({ id: ++serial, plan: next, planKey: planKey(next) });
    else askMoment();
  };

  /** Buttons are held down and the plan's own figures are there: what do they do? */
  const askMoment = (): void => {
    const { pressed, plan, provisional, resultsFor } = app.getState();
    if (running || pressed.length === 0 || !resultsFor || resultsFor !== (provisional ?? plan) || isMomentary(app.getState())) return;
    send({ id: ++serial, kind: 'pressed', plan: resultsFor, pressed });
  };

  const fail = (message: string): void => {
    if (running?.kind === 'pressed') {
      // Asked again, it would fail again: the button comes up.
      finish({ pressed: [], momentary: null, notice: { kind: 'problem', text: `What the button does could not be worked out: ${message}` } });
      return;
    }
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
    if ('moment' in reply) {
      const asked = running.kind === 'pressed' ? running.pressed : [];
      finish(app.getState().pressed === asked ? { momentary: { moment: reply.moment, resultFor: plan, pressed: asked } } : {});
      return;
    }
    if ('look' in reply) {
      const results = first && open?.id === plan.id ? withSecondLook(first, reply.look) : null;
      finish(results ? { results, resultsFor: plan, looking: false, workerError: null } : {});
      return;
    }
    if (!reply.more) {
      finish(open?.id === plan.id ? { results: reply.results, resultsFor: plan, looking: false, workerError: null } : {});
      return;
    }
    first = reply.results;
    if (waiting) leaveSecondLook();
    else join = setTimeout(showFirst, JOIN_MS);
  };

  const showFirst = (): void => {
    const shown = first;
    if (shown && running && app.getState().plan?.id === running.plan.id)
      app.setState({ results: shown, resultsFor: running.plan, looking: true, workerError: null });
  };

  /** A newer plan is there: what has been found of this one is shown, and the rest is not waited for. */
  const leaveSecondLook = (): void => {
    clearTimeout(join);
    showFirst();
    finish({});
  };

  const send = (request: WorkerRequest): void => {
    running = request;
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
      port.postMessage(request);
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
    if (!running) send({ id: ++serial, plan, planKey: planKey(plan) });
    else {
      waiting = plan;
      if (first) leaveSecondLook();
    }
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
    if (state.pressed !== before.pressed) askMoment();
  });
  return () => {
    unsubscribe();
    clearTimeout(pause);
    clearTimeout(patience);
    clearTimeout(join);
    dropPort();
  };
}
