import { letterOf as letterOfKind } from '../analysis/views.ts';
import { partKinds } from '../parts/index.ts';
import { alternativeTo, familyOf, letterOf } from '../plan/alternatives.ts';
import { sameRow } from '../plan/equal.ts';
import { readyToCopy } from '../plan/given.ts';
import { emptyPlan, versionId } from '../plan/new.ts';
import type { Plan } from '../plan/types.ts';
import { askWhichStays, ownCopy } from './apart.ts';
import { type Autosave, attachAutosave, FAILED_TEXT } from './autosave.ts';
import { openText, planFrom, saveFile as save } from './files.ts';
import { dropRescue, keepRescue, rescues, type TextStore } from './rescue.ts';
import { siblings } from './siblings.ts';
import { asKept, type KeptPlan, mayReplace, type PlanStorage, within } from './storage.ts';
import type { App } from './store.ts';
import { attachTabs, type TabChannel } from './tabs.ts';

/** Storage that has not answered by then counts as blocked, ms. */
export const OPEN_PATIENCE_MS = 2000;
export const OFF_TEXT = 'This browser keeps nothing for this page (a private window, or storage is blocked). Save the plan as a file before you close it.';

export interface SessionParts {
  readonly app: App;
  readonly storage: PlanStorage;
  readonly channel?: TabChannel;
  /** Asks the browser not to clear this page's storage by itself. */
  readonly persist?: () => void;
  /** Takes what is unsaved when the page goes away. */
  readonly rescue?: TextStore | null;
}

export interface Session {
  /** Looks at storage and opens the plan that was open last. */
  start(): Promise<void>;
  openPlan(id: string): Promise<boolean>;
  /** A plan kept here, without opening it; null when it is not there or cannot be read. */
  peek(id: string): Promise<Plan | null>;
  /** Copies the open plan to a further wiring and opens the copy. */
  tryAnother(): Promise<boolean>;
  removePlan(id: string): Promise<void>;
  /** Where a plan from a file goes: under an id of its own when a different plan is kept under its id. */
  place(plan: Plan): Promise<{ readonly plan: Plan; readonly note?: string }>;
  flush(): Promise<void>;
  /** The page goes away: writes, and leaves a text behind in case the write is cut off. */
  leave(): void;
  stop(): void;
}

/** Ties the store to storage and to other tabs. */
export function createSession({ app, storage, channel, persist, rescue = null }: SessionParts): Session {
  let autosave: Autosave | null = null;
  const ends: (() => void)[] = [];
  const tell = (text: string): void => app.getState().setNotice({ kind: 'problem', text, action: { label: 'Save as a file', run: () => void save(app) } });
  const refreshList = async (): Promise<void> => app.setState({ plans: await storage.list() });

  // Only what storage holds may be called the last plan: a page closed at once would otherwise look for a ghost.
  let remembered: string | null = null;
  const remember = (id: string | null): void => {
    if (id === remembered) return;
    remembered = id;
    void storage.setLast(id).catch(() => undefined);
  };

  const openPlan = async (id: string): Promise<boolean> => {
    await autosave?.flush();
    return reopen(id);
  };
  const reopen = async (id: string): Promise<boolean> => {
    let raw: unknown;
    try {
      raw = await within(OPEN_PATIENCE_MS, storage.read(id));
    } catch {
      app.getState().setNotice({ kind: 'problem', text: 'The plan could not be read from this browser’s storage.' });
      return false;
    }
    const kept = asKept(raw);
    // What stands there has been read, of whatever edition it is: this page may write over it.
    if (kept) autosave?.known(kept);
    if (kept && isCurrent(kept)) {
      const plan = await wirings.counted(kept.plan);
      // Told once: from then on the numbers are on record.
      const shared = kept.plan.given === undefined ? await wirings.shared(plan) : null;
      // What the other wirings have given is found anew each time: it alone is no reason to write.
      if (shared === null) autosave?.known({ ...kept, plan });
      app.getState().load(plan, kept.past);
      app.setState({ future: kept.future });
      remember(id);
      if (shared !== null) app.getState().setNotice({ kind: 'info', text: shared, stays: true });
      return true;
    }
    if (!kept) {
      app.getState().setNotice({ kind: 'problem', text: 'That plan is no longer in this browser’s storage.' });
      return false;
    }
    // Written by another edition of this page: read it as a file, with its migrations; undo starts afresh.
    return openText(app, JSON.stringify(kept.plan), 'The stored plan', async (plan) => ({ plan: await wirings.counted(plan) }));
  };

  const readKept = async (id: string): Promise<Plan | null> => {
    const kept = asKept(await within(OPEN_PATIENCE_MS, storage.read(id)).catch(() => null));
    if (!kept || isCurrent(kept)) return kept?.plan ?? null;
    return planFrom(JSON.stringify(kept.plan));
  };
  const wirings = siblings(app, readKept, refreshList, () => autosave);

  const behind = askWhichStays({
    app,
    write: (kept) => within(OPEN_PATIENCE_MS, storage.write(kept)).catch(() => false),
    refreshList: () => refreshList().catch(() => undefined),
    reopen,
    elsewhere: (plan) => autosave?.elsewhere(plan),
    fail: () => tell(FAILED_TEXT),
  });

  /** Brings what an earlier page left behind into storage. Returns the plan it had open, if any. */
  const takeRescues = async (): Promise<string | null> => {
    let newest: KeptPlan | null = null;
    for (const left of rescue ? rescues(rescue) : []) {
      const stored = asKept(await storage.read(left.plan.id));
      if (!mayReplace(left, stored)) {
        // Another tab went on from there too: both stay. What that tab had read from here is in its work already.
        if (stored?.over !== left.mark) await storage.write(ownCopy(left));
      } else if (!stored || stored.changed < left.changed) {
        await storage.write(left);
        if (!newest || newest.changed < left.changed) newest = left;
      }
      if (rescue) dropRescue(rescue, left);
    }
    return newest?.plan.id ?? null;
  };

  return {
    openPlan,
    async start() {
      let last: string | null = null;
      try {
        last = await within(OPEN_PATIENCE_MS, storage.last());
        last = (await within(OPEN_PATIENCE_MS, takeRescues())) ?? last;
        await within(OPEN_PATIENCE_MS, refreshList());
      } catch {
        app.setState({ saved: 'off', started: true });
        app.getState().setNotice({ kind: 'problem', text: OFF_TEXT });
        // There is nothing to save yet: the way out is offered once there is.
        const unsubscribe = app.subscribe((state, before) => {
          if (!state.plan || state.plan === before.plan || state.plan.id !== before.plan?.id) return;
          unsubscribe();
          tell(OFF_TEXT);
        });
        ends.push(unsubscribe);
        return;
      }
      autosave = attachAutosave(app, storage, {
        offerFile: () => void save(app),
        ...(persist ? { onFirstEdit: persist } : {}),
        onBehind: behind,
        onWritten: (kept) => {
          const { plan } = kept;
          if (app.getState().plan?.id === plan.id) remember(plan.id);
          if (rescue && !autosave?.unsaved()) dropRescue(rescue, kept);
          if (plan.given) channel?.postMessage({ type: 'kept', plan: plan.id, family: familyOf(plan) });
          void refreshList().catch(() => undefined);
        },
      });
      ends.push(autosave.stop);
      if (channel)
        ends.push(attachTabs(app, channel, crypto.getRandomValues(new Uint32Array(2)).join('-'), () => void wirings.recount().catch(() => undefined)));
      ends.push(
        app.subscribe((state, before) => {
          if (before.plan && !state.plan) remember(null);
        }),
      );
      if (last !== null && app.getState().plan === null) await openPlan(last);
      app.setState({ started: true });
    },
    async peek(id) {
      await autosave?.flush();
      return readKept(id);
    },
    async tryAnother() {
      await autosave?.flush();
      const { plan, plans, saved, load, setNotice } = app.getState();
      if (!plan) return false;
      if (saved !== 'saved') {
        // The copy takes the place of the open plan on screen: what is kept nowhere would be lost.
        tell('Another wiring is kept beside this one, and this browser keeps nothing at the moment. Save the plan as a file first.');
        return false;
      }
      const first = readyToCopy(plan, letterOfKind);
      const copy = alternativeTo(first, plans);
      if (!copy) {
        setNotice({ kind: 'problem', text: 'There are wirings up to Z. Delete one that you no longer need.' });
        return false;
      }
      app.setState({ plan: first });
      await autosave?.flush();
      load(copy);
      setNotice({ kind: 'info', text: `This is wiring ${letterOf(copy)}, a copy of ${letterOf(plan)}. Change it; ${letterOf(plan)} stays as it is.` });
      return true;
    },
    async removePlan(id) {
      if (app.getState().plan?.id === id) {
        await autosave?.flush();
        app.getState().close();
      }
      try {
        await storage.remove(id);
        await refreshList();
      } catch {
        app.getState().setNotice({ kind: 'problem', text: 'The plan could not be removed from this browser’s storage.' });
      }
    },
    async place(plan) {
      if (!autosave) return { plan };
      await autosave.flush();
      const kept = asKept(await within(OPEN_PATIENCE_MS, storage.read(plan.id)).catch(() => null));
      const withNote = async (read: Plan): Promise<{ plan: Plan; note?: string }> => {
        const counted = await wirings.counted(read);
        const note = await wirings.shared(counted);
        return note === null ? { plan: counted } : { plan: counted, note };
      };
      if (!kept) return withNote(plan);
      // Numbers given in other wirings make no other plan of it.
      if (sameRow({ ...kept.plan, given: null }, { ...plan, given: null })) {
        autosave.known(kept);
        return withNote(kept.plan);
      }
      return {
        plan: { ...plan, id: versionId(plan.id) },
        note: 'This browser keeps a different version of this plan: both are kept, and this one is the file’s.',
      };
    },
    flush: async () => autosave?.flush(),
    leave() {
      const unsaved = autosave?.unsaved();
      if (unsaved && rescue) keepRescue(rescue, unsaved);
      void autosave?.flush();
    },
    stop() {
      for (const end of ends) end();
    },
  };
}

function isCurrent(kept: KeptPlan): boolean {
  return kept.version === emptyPlan('', {}, '').version && Object.values(kept.plan.parts).every((p) => partKinds.has(p.kind));
}
