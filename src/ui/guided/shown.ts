import { useSyncExternalStore } from 'react';

const KEY = 'dashloom.guide';
/** Older plans drop out: the guide of a plan long closed need not be remembered. */
const MOST = 30;

let ids: readonly string[] = read();
const watchers = new Set<() => void>();

/** Is the guide shown for a plan? It is for a new one, until somebody hides it. */
export function useGuideShown(plan: string | undefined): boolean {
  return useSyncExternalStore(watch, () => plan !== undefined && ids.includes(plan));
}

/** Brings the guide of a plan, or hides it; kept in this browser. */
export function showGuide(plan: string, shown: boolean): void {
  const others = ids.filter((id) => id !== plan);
  ids = shown ? [plan, ...others].slice(0, MOST) : others;
  try {
    localStorage.setItem(KEY, JSON.stringify(ids));
  } catch {
    // Full or blocked: it lasts for this visit.
  }
  for (const told of watchers) told();
}

function watch(told: () => void): () => void {
  watchers.add(told);
  return () => watchers.delete(told);
}

function read(): readonly string[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(kept) ? kept.filter((id): id is string => typeof id === 'string') : [];
  } catch {
    return [];
  }
}
