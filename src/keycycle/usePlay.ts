import { useEffect, useState } from 'react';

/** The cursor walks so fast, drawing units a second: the whole strip in about ten seconds. */
const PER_S = 90;

/**
 * Walks the cursor along the strip until its end.
 * @param x where the cursor stands, drawing units
 */
export function usePlay(x: number, end: number, to: (x: number) => void): { readonly playing: boolean; play(): void; pause(): void } {
  const [playing, setPlaying] = useState(false);
  useEffect(() => {
    if (!playing) return;
    let frame = 0;
    let last = performance.now();
    const step = (now: number) => {
      const next = x + ((now - last) / 1000) * PER_S;
      last = now;
      to(Math.min(next, end));
      if (next >= end) setPlaying(false);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [playing, x, end, to]);
  return { playing, play: () => setPlaying(true), pause: () => setPlaying(false) };
}
