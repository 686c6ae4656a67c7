import type { TextStore } from './rescue.ts';
import type { App } from './store.ts';
import type { AppState } from './types.ts';

const KEY = 'dashloom.copies';
/** Plans of which the last copy is remembered; beyond it the one untouched for longest is forgotten. */
const MOST_PLANS = 100;
type Copied = AppState['copied'];

const NEVER: Copied = { at: null, edits: 0 };

/** The open plan lies in a file as it is now. */
export function noteCopy(app: App, now: number = Date.now()): void {
  app.setState({ copied: { at: now, edits: 0 } });
}

/**
 * Counts the edits of each plan since it was last saved as a file or read from one, beside the plans in this browser.
 * Without storage the count lasts for this visit.
 */
export function attachCopies(app: App, store: TextStore | null): () => void {
  const known = read(store);
  const keep = (id: string, copied: Copied): void => {
    known.delete(id);
    known.set(id, copied);
    for (const oldest of [...known.keys()].slice(0, Math.max(0, known.size - MOST_PLANS))) known.delete(oldest);
    try {
      store?.setItem(KEY, JSON.stringify([...known].map(([plan, { at, edits }]) => [plan, at, edits])));
    } catch {
      // Full or blocked: the plan itself is told of elsewhere.
    }
  };
  const show = (id: string | undefined): void => app.setState({ copied: (id !== undefined && known.get(id)) || NEVER });
  show(app.getState().plan?.id);
  return app.subscribe((state, before) => {
    const id = state.plan?.id;
    if (id !== before.plan?.id) show(id);
    else if (id !== undefined && state.copied !== before.copied) keep(id, state.copied);
    // Edits that stand as one entry of undo are one.
    else if (state.plan !== before.plan && state.past.length !== before.past.length)
      app.setState({ copied: { ...state.copied, edits: state.copied.edits + 1 } });
  });
}

function read(store: TextStore | null): Map<string, Copied> {
  const known = new Map<string, Copied>();
  try {
    const rows: unknown = JSON.parse(store?.getItem(KEY) ?? '[]');
    for (const row of Array.isArray(rows) ? rows : []) {
      const [id, at, edits]: unknown[] = Array.isArray(row) ? row : [];
      if (typeof id === 'string' && (at === null || typeof at === 'number') && typeof edits === 'number') known.set(id, { at, edits });
    }
  } catch {
    // Unreadable: counted from now on.
  }
  return known;
}
