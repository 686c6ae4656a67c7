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

/** What `code` brings; null until it has come, and as long as it is not wanted. */
export function useLater<T>(code: Later<T>, wanted = true): T | null {
  const [ready, setReady] = useState(() => code.known);
  useEffect(() => {
    if (ready || !wanted) return;
    let gone = false;
    const fetchIt = (): Promise<void> =>
      fetched(code).then(
        (known) => {
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
  }, [code, ready, wanted]);
  return wanted ? ready : null;
}

/** What `code` brings, for something that was asked for; null when it did not come: that has been told, with `again` as another try. */
export async function fetchedNow<T>(code: Later<T>, again: () => void): Promise<T | null> {
  try {
    return await fetched(code);
  } catch {
    tellMissing(app, code.what, again);
    return null;
  }
}

async function fetched<T>(code: Later<T>): Promise<T> {
  code.known ??= await fetchedCode(code.load);
  return code.known;
}
