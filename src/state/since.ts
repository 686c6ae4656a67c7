import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Primitive } from '../drawing/types.ts';
import type { Scene } from '../scene/types.ts';
import { fetchedCode, tellMissing } from './missing.ts';
import { app } from './store.ts';

/** What changed since a revision, as it lies over the drawing. */
export interface SinceState {
  /** Revision with which the drawing is compared; null = the drawing shows everything alike. */
  readonly number: number | null;
  /** Things that are new, changed and taken out, and facts and limits that are others now; null until it has been worked out. */
  readonly counts: { readonly added: number; readonly changed: number; readonly removed: number; readonly facts: number } | null;
  readonly overlay: {
    /** The scene it belongs to. */
    readonly of: Scene;
    readonly drawn: Scene;
    readonly over: readonly Primitive[];
  } | null;
}

const NOTHING: SinceState = { number: null, counts: null, overlay: null };

/** Apart from the plan's store: a way of looking, forgotten with the page. */
export const since = createStore<SinceState>()(() => NOTHING);

let stop: (() => void) | null = null;
let asked = 0;

/** Shows on the drawing what changed since a revision; null = everything again. The code for it is fetched when first asked for. */
export async function showSince(number: number | null): Promise<void> {
  const mine = ++asked;
  stop?.();
  stop = null;
  since.setState({ ...NOTHING, number });
  if (number === null) return;
  const code = await fetchedCode(() => import('./followSince.ts')).catch(() => null);
  if (mine !== asked) return;
  if (!code) {
    since.setState(NOTHING);
    tellMissing(app, 'The comparison', () => void showSince(number));
    return;
  }
  stop = code.followSince(
    app,
    number,
    (state) => since.setState(state),
    () => void showSince(null),
  );
}

/** What lies over this scene now, if anything. */
export function overlayOf(scene: Scene | null): SinceState['overlay'] {
  const { overlay } = since.getState();
  return overlay && overlay.of === scene ? overlay : null;
}

export function useSince<T>(selector: (state: SinceState) => T): T {
  return useStore(since, selector);
}
