import type { TimeOrder, TimeResult, TimeStep } from '../advise/inTime.ts';
import { defaultScenario, tidyScenario } from '../analysis/time/scenario.ts';
import type { Scenario } from '../analysis/time/types.ts';
import { sameRow } from '../plan/equal.ts';
import type { Plan } from '../plan/types.ts';
import { sameElectric } from './electric.ts';
import type { App } from './store.ts';
import { patchTask } from './timeSlice.ts';
import type { AppState, TimeTask } from './types.ts';
import { newWorker } from './workerClient.ts';

/** What is sent to the worker: an order for a plan, or to stop one. */
export type TimeRequest = (TimeOrder & { readonly id: number }) | { readonly kind: 'stop'; readonly id: number };
/** What comes back: the share done with what is known so far, the result, or why there is none. */
export type TimeReply =
  | (TimeStep & { readonly id: number })
  | { readonly id: number; readonly result: TimeResult }
  | { readonly id: number; readonly error: string };

/** The few things of a Worker that are used here, so that tests can bring their own. */
export interface TimePort {
  postMessage(request: TimeRequest): void;
  terminate(): void;
  onmessage: ((event: { readonly data: TimeReply }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

const TASKS: readonly TimeTask[] = ['cycle', 'margins', 'weeks', 'spread', 'events'];
/** A turn of the key that is no longer wanted may finish within this time; after it the worker is replaced, ms. */
export const GRACE_MS = 1000;
/** After an edit the plan is first left alone for so long, ms: who edits on wants the plain figures. The turn of the key comes next, what takes longer later. */
export const QUIET_MS = 400;
export const LONG_QUIET_MS = 800;

/** A worker of its own: what takes seconds must not keep the plain figures waiting. */
export function spawnTimeWorker(): TimePort {
  return newWorker() as TimePort;
}

/** What one task was asked for. */
interface Asked {
  readonly plan: Plan;
  readonly scenario: Scenario | null;
  readonly asked: number;
}

interface Running extends Asked {
  readonly id: number;
  readonly since: number;
}

/**
 * Computes the tasks that somebody watches, anew whenever the plan (or the scenario) changes. The newest wins: what is
 * being computed for an older plan is given up. After an edit it lets the plain figures go first.
 * @returns a function that ends it.
 */
export function attachTime(app: App, spawn: () => TimePort = spawnTimeWorker): () => void {
  let port: TimePort | null = null;
  let serial = 0;
  const running = new Map<TimeTask, Running>();
  /** What was last asked, done or given up: not asked again by itself. */
  const settled = new Map<TimeTask, Asked>();
  /** What is wanted as soon as the plan has been left alone. */
  const waiting = new Map<TimeTask, Asked>();
  let editedMs = Number.NEGATIVE_INFINITY;
  let quiet: ReturnType<typeof setTimeout> | undefined;
  let grace: ReturnType<typeof setTimeout> | undefined;

  const patch = (task: TimeTask, more: Partial<AppState[TimeTask]>): void => app.setState(patchTask(app.getState(), task, more as never));

  /** The worker goes, and with it everything it was doing; what is still wanted is asked of the next one. */
  const dropPort = (): void => {
    port?.terminate();
    port = null;
    running.clear();
  };

  const fail = (task: TimeTask, job: Asked, error: string): void => {
    running.delete(task);
    settled.set(task, job);
    patch(task, { busy: false, share: 0, error });
  };

  const onReply = (reply: TimeReply): void => {
    const task = TASKS.find((t) => running.get(t)?.id === reply.id);
    const job = task && running.get(task);
    if (!task || !job) return;
    if ('share' in reply) {
      patch(task, { share: reply.share, ...(reply.partial ? { result: reply.partial, resultFor: job.plan } : {}) });
      return;
    }
    if ('error' in reply) {
      fail(task, job, reply.error);
    } else {
      running.delete(task);
      settled.set(task, job);
      patch(task, { result: reply.result, resultFor: job.plan, busy: false, share: 1, error: null } as Partial<AppState[TimeTask]>);
    }
    look();
  };

  const send = (task: TimeTask, wanted: Asked): void => {
    serial += 1;
    const job: Running = { ...wanted, id: serial, since: Date.now() };
    running.set(task, job);
    patch(task, { busy: true, share: 0, error: null });
    try {
      if (!port) {
        port = spawn();
        port.onmessage = (event) => onReply(event.data);
        port.onerror = (event) => {
          const lost = [...running];
          dropPort();
          for (const [t, j] of lost) fail(t, j, `The calculation stopped${event.message ? `: ${event.message}` : ''}. Change the plan to try again.`);
        };
      }
      port.postMessage(requestOf(task, job));
    } catch (error) {
      dropPort();
      fail(task, job, `The calculation could not start: ${error instanceof Error ? error.message : String(error)}`);
    }
  };

  /** Gives up what runs for a task. A turn of the key cannot hear of it: it may finish soon or its worker goes. */
  const giveUp = (task: TimeTask, at: 'once' | 'grace'): void => {
    const job = running.get(task);
    if (!job) return;
    if (task !== 'cycle') {
      running.delete(task);
      port?.postMessage({ kind: 'stop', id: job.id });
      return;
    }
    const left = at === 'once' ? 0 : job.since + GRACE_MS - Date.now();
    clearTimeout(grace);
    if (left <= 0) dropPort();
    else grace = setTimeout(look, left);
  };

  const wantedOf = (state: AppState, task: TimeTask): Asked | null =>
    state.plan && state.watched[task] > 0 ? { plan: state.plan, scenario: task === 'cycle' ? state.cycle.scenario : null, asked: state[task].asked } : null;

  let isLooking = false;
  let isStale = false;
  const look = (): void => {
    isStale = true;
    // Setting the store comes back here.
    if (isLooking) return;
    isLooking = true;
    try {
      while (isStale) {
        isStale = false;
        for (const task of TASKS) if (running.has(task)) tendRunning(task);
        for (const task of TASKS) if (!running.has(task)) tendIdle(task);
      }
    } finally {
      isLooking = false;
    }
  };

  const tendRunning = (task: TimeTask): void => {
    const job = running.get(task)!;
    const wanted = wantedOf(app.getState(), task);
    if (wanted && sameAsked(job, wanted)) {
      if (app.getState()[task].busy) return;
      settled.set(task, job);
      giveUp(task, 'once');
      return;
    }
    giveUp(task, wanted ? 'grace' : 'once');
    if (!wanted && app.getState()[task].busy) patch(task, { busy: false, share: 0 });
  };

  const tendIdle = (task: TimeTask): void => {
    const state = app.getState();
    const wanted = wantedOf(state, task);
    const put = waiting.get(task);
    if (!wanted) {
      if (waiting.delete(task)) patch(task, { busy: false, share: 0 });
      return;
    }
    if (put && sameAsked(put, wanted) && !state[task].busy) {
      // Called off before it began.
      waiting.delete(task);
      settled.set(task, wanted);
    }
    const last = settled.get(task);
    if (!last || !sameAsked(last, wanted)) {
      if (isEdited(task === 'cycle' ? QUIET_MS : LONG_QUIET_MS)) {
        waiting.set(task, wanted);
        if (!state[task].busy) patch(task, { busy: true, share: 0, error: null });
        return;
      }
      waiting.delete(task);
      send(task, wanted);
      return;
    }
    // An edit was taken back before the task began.
    if (waiting.delete(task)) patch(task, { busy: false, share: 1 });
    // Only the drawing has changed: the result is this plan's too.
    const { result, resultFor } = state[task];
    if (result && resultFor === last.plan && resultFor !== wanted.plan) {
      settled.set(task, wanted);
      patch(task, { resultFor: wanted.plan });
    }
  };

  /** Was the plan edited only just now, or are its plain figures still to come? */
  const isEdited = (quietMs: number): boolean => {
    const left = editedMs + quietMs - Date.now();
    // Each looks again by itself: one timer for the next of them is enough.
    if (left > 0) quiet ??= setTimeout(lookAgain, left);
    return left > 0 || app.getState().busy;
  };
  const lookAgain = (): void => {
    quiet = undefined;
    look();
  };

  const unsubscribe = app.subscribe((state, before) => {
    if (state.plan && state.plan !== before.plan && !(before.plan && sameElectric(before.plan, state.plan))) editedMs = Date.now();
    if (state.plan?.id !== before.plan?.id) settled.clear();
    else if (state.plan && before.plan && state.plan !== before.plan) followPlan(app, before.plan, state.plan);
    look();
  });
  look();
  return () => {
    unsubscribe();
    clearTimeout(grace);
    clearTimeout(quiet);
    dropPort();
  };
}

/**
 * A scenario of which nobody has moved a moment is the new plan's own; a moved one is kept in order. The supply it is
 * for is chosen elsewhere and says nothing about the moments.
 */
function followPlan(app: App, before: Plan, plan: Plan): void {
  const { cycle } = app.getState();
  const { band } = cycle.scenario;
  const own = sameRow(cycle.scenario, { ...defaultScenario(before), band });
  const scenario = own ? { ...defaultScenario(plan), band } : tidyScenario(plan, cycle.scenario);
  if (!sameRow(scenario, cycle.scenario)) app.setState({ cycle: { ...cycle, scenario } });
}

function sameAsked(a: Asked, b: Asked): boolean {
  return a.asked === b.asked && sameRow(a.scenario, b.scenario) && sameElectric(a.plan, b.plan);
}

function requestOf(task: TimeTask, { id, plan, scenario }: Running): TimeRequest {
  return task === 'cycle' ? { kind: 'cycle', id, plan, scenario: scenario! } : { kind: task, id, plan };
}
