import { useStore } from 'zustand';
import { createStore, type StoreApi } from 'zustand/vanilla';
import { planSlice } from './planSlice.ts';
import { timeSlice } from './timeSlice.ts';
import type { AppState } from './types.ts';
import { viewSlice } from './viewSlice.ts';

export type App = StoreApi<AppState>;

/** A store with nothing open. Worker and storage attach to it from outside (session.ts); tests attach their own. */
export function createApp(now: () => number = () => Date.now()): App {
  return createStore<AppState>()((set, get) => ({
    ...planSlice(set, get, now),
    ...viewSlice(set, get),
    ...timeSlice(set, get),
    results: null,
    resultsFor: null,
    busy: false,
    looking: false,
    workerError: null,
    saved: 'saved',
    copied: { at: null, edits: 0 },
    plans: [],
    started: false,
  }));
}

/** The store of this page. */
export const app: App = createApp();

/** Reads a slice of the page's store; the component draws again when that slice changes. */
export function useApp<T>(selector: (state: AppState) => T): T {
  return useStore(app, selector);
}
