import { createStore, delMany, get, getMany, keys, promisifyRequest, set, type UseStore } from 'idb-keyval';
import type { Edit, Plan } from '../plan/types.ts';
import type { PlanEntry } from './types.ts';

/**
 * What is kept of one plan. The plan as it stands and the edits that led to it: the inverse of each leads back, so
 * undo survives a reload and a damaged edit list can never cost the plan itself.
 */
export interface KeptPlan {
  /** Format version of the plan and its edits when written. */
  readonly version: number;
  readonly changed: number;
  readonly plan: Plan;
  readonly past: readonly Edit[];
  readonly future: readonly Edit[];
  /** Which page wrote this, and its how manieth state: `page.number`. */
  readonly mark?: string;
  /** Mark of what that page had read when it began: its own states lead from there to here. */
  readonly over?: string;
}

/** Page that wrote this; '' for an edition of the page that left no mark. */
const pageOf = ({ mark = '' }: KeptPlan): string => mark.slice(0, mark.lastIndexOf('.') + 1);

/**
 * May this take the place of what is kept? Only when what is kept comes from the same page or is what that page had read:
 * anything else is the work of another tab, which must not be lost.
 */
export function mayReplace(kept: KeptPlan, stored: KeptPlan | null): boolean {
  return stored === null || stored.mark === kept.over || pageOf(stored) === pageOf(kept);
}

/** Where plans are kept. Every method rejects when the store cannot be used. */
export interface PlanStorage {
  list(): Promise<readonly PlanEntry[]>;
  /** `unknown`, since an older or newer edition of the page may have written it. */
  read(id: string): Promise<unknown>;
  /** Looks and writes in one step; false = another tab's work stands there and stays (see `mayReplace`). */
  write(kept: KeptPlan): Promise<boolean>;
  remove(id: string): Promise<void>;
  /** Id of the plan that was open last; null = none. */
  last(): Promise<string | null>;
  setLast(id: string | null): Promise<void>;
}

const planKey = (id: string): string => `plan:${id}`;
const entryKey = (id: string): string => `entry:${id}`;
const LAST = 'last';

/** Plans in this browser's IndexedDB. List entries lie beside the plans, so that listing reads no whole plan. */
export function browserStorage(name = 'dashloom'): PlanStorage {
  let opened: UseStore | null = null;
  // Opened late: merely naming IndexedDB throws where the browser withholds it.
  const db = (): UseStore => {
    opened ??= createStore(name, 'plans');
    return opened;
  };
  return {
    async list() {
      const all = await keys<string>(db());
      const entries = await getMany<PlanEntry>(
        all.filter((key) => key.startsWith('entry:')),
        db(),
      );
      return entries.filter((e) => e !== undefined).sort((a, b) => b.changed - a.changed);
    },
    read: async (id) => (await get<unknown>(planKey(id), db())) ?? null,
    write: async (kept) => {
      const entry = entryOf(kept);
      const { id } = entry;
      // One transaction: no other tab can write between the look and the writing.
      return db()('readwrite', async (rows) => {
        const stored = asKept(await promisifyRequest<unknown>(rows.get(planKey(id))));
        if (!mayReplace(kept, stored)) return false;
        rows.put(kept, planKey(id));
        rows.put(entry, entryKey(id));
        await promisifyRequest(rows.transaction);
        return true;
      });
    },
    remove: async (id) => delMany([planKey(id), entryKey(id)], db()),
    last: async () => (await get<string>(LAST, db())) ?? null,
    setLast: async (id) => set(LAST, id, db()),
  };
}

/** What the list of plans says of one. */
export function entryOf({ plan, changed }: KeptPlan): PlanEntry {
  const { id, title, alternative } = plan;
  return { id, title, changed, ...(alternative ? { alternative } : {}) };
}

/** Fails after `ms`: a blocked database may simply never answer. */
export function within<T>(ms: number, work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`no answer within ${ms} ms`)), ms);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

/** What was read as a kept plan, or null when it is none; the plan inside may still be of another edition. */
export function asKept(raw: unknown): KeptPlan | null {
  if (typeof raw !== 'object' || raw === null) return null;
  const { plan, past, future, changed } = raw as Partial<KeptPlan>;
  return typeof plan === 'object' && plan !== null && typeof changed === 'number' && Array.isArray(past) && Array.isArray(future) ? (raw as KeptPlan) : null;
}
