import type { Plan } from '../plan/types.ts';
import { type KeptPlan, type PlanStorage, within } from './storage.ts';
import type { App } from './store.ts';
import type { AppState } from './types.ts';

/** An edit is written at the latest this long after it was made, ms. */
export const WRITE_MS = 300;
/** A write that takes longer counts as failed, ms; with WRITE_MS the person is told within 2 s. */
export const WRITE_PATIENCE_MS = 1500;
/** A failed write is tried again after this, ms. */
export const RETRY_MS = 10_000;

export const FAILED_TEXT = 'The plan could not be saved in this browser: the storage is full or blocked. Save it as a file so that nothing is lost.';

export interface Autosave {
  /** Writes what is unsaved now; resolves when it is written or has failed. */
  flush(): Promise<void>;
  /** What a write would put into storage now; null when it is there already. */
  unsaved(): KeptPlan | null;
  /** Marks a plan as being in storage already (just read from it). */
  known(kept: KeptPlan): void;
  /** This state of a plan is kept under another id: it needs no writing under its own. */
  elsewhere(plan: Plan): void;
  stop(): void;
}

/**
 * Writes the open plan after every change. `offerFile` is what the failure notice's "Save as a file" does;
 * `onFirstEdit` runs once, after the first edit of the session; `onBehind` runs when another tab's work stands where this
 * plan would go: nothing was written.
 */
export function attachAutosave(
  app: App,
  storage: PlanStorage,
  hooks: {
    readonly offerFile: () => void;
    readonly onFirstEdit?: () => void;
    readonly onWritten?: (kept: KeptPlan) => void;
    readonly onBehind?: (kept: KeptPlan) => void;
  },
): Autosave {
  // Plan objects that storage holds as they are.
  const stored = new WeakSet<Plan>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let dueAt = Number.POSITIVE_INFINITY;
  // What this page is called in the marks of what it writes, and what it read of each plan.
  const page = crypto.getRandomValues(new Uint32Array(2)).join('-');
  const marks = new WeakMap<Plan, string>();
  const read = new Map<string, string | undefined>();
  let states = 0;
  // One write after the other.
  let chain: Promise<void> = Promise.resolve();
  let edited = false;

  const asKeptNow = ({ plan, past, future }: AppState): KeptPlan | null => {
    if (!plan || stored.has(plan)) return null;
    const mark = marks.get(plan) ?? `${page}.${++states}`;
    marks.set(plan, mark);
    const over = read.get(plan.id);
    return { version: plan.version, changed: Date.now(), plan, past, future, mark, ...(over === undefined ? {} : { over }) };
  };

  const schedule = (ms: number): void => {
    // The first unsaved edit sets the time; later ones must not push it on.
    if (dueAt <= Date.now() + ms) return;
    clearTimeout(timer);
    dueAt = Date.now() + ms;
    timer = setTimeout(() => void flush(), ms);
  };

  /** @param isWritten false when another tab's work stands there */
  const settle = (kept: KeptPlan, isWritten: boolean): void => {
    if (!isWritten) {
      if (app.getState().plan?.id === kept.plan.id) app.setState({ saved: 'behind' });
      hooks.onBehind?.(kept);
      return;
    }
    stored.add(kept.plan);
    const { plan, notice } = app.getState();
    app.setState({ saved: plan && !stored.has(plan) ? 'saving' : 'saved', ...(notice?.text === FAILED_TEXT ? { notice: null } : {}) });
    hooks.onWritten?.(kept);
  };

  const write = async (kept: KeptPlan): Promise<void> => {
    const written = storage.write(kept);
    try {
      settle(kept, await within(WRITE_PATIENCE_MS, written));
    } catch {
      const told = app.getState().saved === 'failed';
      app.setState({ saved: 'failed' });
      if (!told) app.getState().setNotice({ kind: 'problem', text: FAILED_TEXT, action: { label: 'Save as a file', run: hooks.offerFile } });
      schedule(RETRY_MS);
      // On a busy device it may only be late: then it is saved after all.
      void written.then((late) => settle(kept, late)).catch(() => undefined);
    }
  };

  const flush = (): Promise<void> => {
    clearTimeout(timer);
    dueAt = Number.POSITIVE_INFINITY;
    chain = chain.then(() => {
      const kept = asKeptNow(app.getState());
      return kept ? write(kept) : undefined;
    });
    return chain;
  };

  const unsubscribe = app.subscribe((state, before) => {
    const left = before.plan;
    if (state.plan === left) return;
    // Another plan was opened before the last edits of this one were written.
    if (left && left.id !== state.plan?.id && !stored.has(left)) {
      chain = chain.then(() => {
        const kept = asKeptNow(before);
        return kept ? write(kept) : undefined;
      });
    }
    if (!state.plan) return;
    if (stored.has(state.plan)) {
      if (state.saved === 'behind') app.setState({ saved: 'saved' });
      return;
    }
    if (!edited && left?.id === state.plan.id) {
      edited = true;
      hooks.onFirstEdit?.();
    }
    // A failure stays visible until a write has worked; one of another plan does not.
    if (state.saved === 'saved' || (state.saved === 'behind' && left?.id !== state.plan.id)) app.setState({ saved: 'saving' });
    schedule(WRITE_MS);
  });

  if (app.getState().plan) schedule(WRITE_MS);
  return {
    flush,
    unsaved: () => asKeptNow(app.getState()),
    known: (kept) => {
      stored.add(kept.plan);
      read.set(kept.plan.id, kept.mark);
    },
    elsewhere: (plan) => {
      stored.add(plan);
    },
    stop() {
      unsubscribe();
      clearTimeout(timer);
    },
  };
}
