import { useEffect, useState } from 'react';

/** What is over sooner is not shown, ms: it would only flicker. */
export const LASTING_MS = 150;

/** True once something has been so for a while; false at once when it is over. */
export function useLasting(on: boolean): boolean {
  const [lasts, setLasts] = useState(false);
  useEffect(() => {
    if (!on) {
      setLasts(false);
      return;
    }
    const timer = setTimeout(() => setLasts(true), LASTING_MS);
    return () => clearTimeout(timer);
  }, [on]);
  return on && lasts;
}
