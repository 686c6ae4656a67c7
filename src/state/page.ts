import { emptyPlan } from '../plan/new.ts';
import type { Plan, Vehicle } from '../plan/types.ts';
import { attachCopies } from './copies.ts';
import { openFile as open, saveFile as save, type TextFile } from './files.ts';
import { attachPrefs, deviceLook } from './prefs.ts';
import { createSession, type Session } from './session.ts';
import { browserStorage } from './storage.ts';
import { app } from './store.ts';
import type { TabChannel } from './tabs.ts';

/** The session of this page, and what the screen asks of it. */
let session: Session | null = null;

/** Starts the page: preferences, storage, other tabs, and the plan that was open last. Called once, by the entry. */
export async function startSession(): Promise<void> {
  const texts = localStorageOrNull();
  attachPrefs(
    app,
    texts,
    deviceLook((text) => window.matchMedia(text)),
  );
  attachCopies(app, texts);
  const storage = browserStorage();
  session = createSession({
    app,
    storage,
    rescue: texts,
    ...(typeof BroadcastChannel === 'undefined' ? {} : { channel: new BroadcastChannel('dashloom-plans') as TabChannel }),
    persist: () => void navigator.storage?.persist?.().catch(() => undefined),
  });
  const leave = (): void => session?.leave();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') leave();
  });
  window.addEventListener('pagehide', leave);
  window.addEventListener('beforeunload', (event) => {
    const { saved, past } = app.getState();
    if (saved === 'failed' || saved === 'behind' || (saved === 'off' && past.length > 0)) event.preventDefault();
  });
  await session.start();
}

function localStorageOrNull(): Storage | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}

/** Makes a new plan and opens it. */
export function createPlan(title: string, vehicle: Partial<Vehicle> = {}): Plan {
  const plan = emptyPlan(title, vehicle);
  app.getState().load(plan);
  return plan;
}

/** Opens a plan kept in this browser; false when it is not there (a notice says so). */
export const openPlan = async (id: string): Promise<boolean> => (await session?.openPlan(id)) ?? false;
/** A plan kept in this browser, without opening it. */
export const peekPlan = async (id: string): Promise<Plan | null> => (await session?.peek(id)) ?? null;
/** Copies the open plan to a further wiring and opens it; false when that is not possible (a notice says why). */
export const tryAnother = async (): Promise<boolean> => (await session?.tryAnother()) ?? false;
/** Removes a plan from this browser for good; closes it when it is the open one. */
export const removePlan = async (id: string): Promise<void> => session?.removePlan(id);
/** Opens a plan file; problems become a notice and the open plan stays. */
export const openFile = (file: TextFile): Promise<boolean> => open(app, file, session?.place);
/** Hands the open plan to the person as `<title>.plan.json`. */
export const saveFile = (): Promise<void> => save(app);
