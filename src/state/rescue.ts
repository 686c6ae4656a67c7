import { asKept, type KeptPlan } from './storage.ts';

/** The few things of localStorage that are used here. */
export type TextStore = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

const PREFIX = 'dashloom.unsaved.';

/** Two tabs may each leave something of the same plan behind. */
const keyOf = ({ plan, mark = '' }: KeptPlan): string => `${PREFIX}${plan.id}.${mark.slice(0, mark.lastIndexOf('.') + 1)}`;

/**
 * Keeps what is not yet in the database when the page goes away: browsers cut off database writes that begin then,
 * but let a plain text be stored. A plan too large for it, or blocked storage, is let go: at most 300 ms are lost.
 */
export function keepRescue(store: TextStore, kept: KeptPlan): void {
  try {
    store.setItem(keyOf(kept), JSON.stringify(kept));
  } catch {
    dropRescue(store, kept);
  }
}

/** Lets go of what the page of `kept` left behind of this plan. */
export function dropRescue(store: TextStore, kept: KeptPlan): void {
  try {
    store.removeItem(keyOf(kept));
    // An earlier edition of this page named it so.
    store.removeItem(PREFIX + kept.plan.id);
  } catch {
    // Blocked: then nothing was kept either.
  }
}

/** What earlier pages left behind; unreadable leftovers are dropped. */
export function rescues(store: TextStore): readonly KeptPlan[] {
  try {
    const keys = Array.from({ length: store.length }, (_, i) => store.key(i) ?? '').filter((key) => key.startsWith(PREFIX));
    return keys.flatMap((key) => {
      const kept = asKept(parsed(store.getItem(key)));
      if (!kept) store.removeItem(key);
      return kept ? [kept] : [];
    });
  } catch {
    return [];
  }
}

function parsed(text: string | null): unknown {
  try {
    return JSON.parse(text ?? 'null');
  } catch {
    return null;
  }
}
