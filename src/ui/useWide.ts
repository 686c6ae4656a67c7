import { useSyncExternalStore } from 'react';

/** Is the window at least so wide? Follows it. */
export function useWide(px: number): boolean {
  return useSyncExternalStore(
    (changed) => {
      const query = window.matchMedia(`(min-width: ${px}px)`);
      query.addEventListener('change', changed);
      return () => query.removeEventListener('change', changed);
    },
    () => window.matchMedia(`(min-width: ${px}px)`).matches,
  );
}
