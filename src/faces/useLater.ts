import { useEffect, useState } from 'react';

/** Code that the first picture does not wait for: fetched when a face first wants it, and kept. */
export interface Later<T> {
  readonly load: () => Promise<T>;
  known: T | null;
}

export const later = <T>(load: () => Promise<T>): Later<T> => ({ load, known: null });

/** What `code` brings; null until it has come. */
export function useLater<T>(code: Later<T>): T | null {
  const [ready, setReady] = useState(() => code.known);
  useEffect(() => {
    if (ready) return;
    let gone = false;
    void code.load().then((known) => {
      code.known = known;
      if (!gone) setReady(() => known);
    });
    return () => {
      gone = true;
    };
  }, [code, ready]);
  return ready;
}
