import { useEffect, useState } from 'react';
import { fetchedCode, tellMissing } from '../state/missing.ts';
import { app } from '../state/store.ts';

/** Code that the first picture does not wait for: fetched when a face first wants it, and kept. */
export interface Later<T> {
  /** First words of "… could not be fetched". */
  readonly what: string;
  readonly load: () => Promise<T>;
  known: T | null;
}

export const later = <T>(what: string, load: () => Promise<T>): Later<T> => ({ what, load, known: null });

/** What `code` brings; null until it has come. */
export function useLater<T>(code: Later<T>): T | null {
  const [ready, setReady] = useState(() => code.known);
  useEffect(() => {
    if (ready) return;
    let gone = false;
    const fetchIt = (): Promise<void> =>
      fetchedCode(code.load).then(
        (known) => {
          code.known = known;
          if (!gone) setReady(() => known);
        },
        () => {
          if (!gone) tellMissing(app, code.what, () => void fetchIt());
        },
      );
    void fetchIt();
    return () => {
      gone = true;
    };
  }, [code, ready]);
  return ready;
}
