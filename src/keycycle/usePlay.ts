import { useEffect, useRef, useState } from 'react';

/** The cursor walks so fast, drawing units a second: the whole strip in about ten seconds. */
const PER_S = 90;

/**
 * Walks the cursor along the strip until its end.
 * @param x where the cursor stands, drawing units
 */
export function usePlay(x: number, end: number, to: (x: number) => void): { readonly playing: boolean; play(): void; pause(): void } {
  const [playing, setPlaying] = useState(false);
  // Kept aside: a render in between must not take the walk back to its first frame.
  const now = useRef({ x, end, to });
  now.current = { x, end, to };
  useEffect(() => {
    if (!playing) return;
    let frame = 0;
    let last: number | null = null;
    const step = (time: number) => {
      const at = now.current;
      const next = at.x + ((time - (last ?? time)) / 1000) * PER_S;
      last = time;
      at.to(Math.min(next, at.end));
      if (next >= at.end) setPlaying(false);
      else frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [playing]);
  return { playing, play: () => setPlaying(true), pause: () => setPlaying(false) };
}
