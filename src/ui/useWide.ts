import { useSyncExternalStore } from 'react';

/** Is the window at least so wide, in the browser's own text size (so that large text counts as a small window)? Follows it. */
export function useWide(em: number): boolean {
  return useSyncExternalStore(
    (changed) => {
      const query = window.matchMedia(`(min-width: ${em}em)`);
      query.addEventListener('change', changed);
      return () => query.removeEventListener('change', changed);
    },
    () => window.matchMedia(`(min-width: ${em}em)`).matches,
  );
}
