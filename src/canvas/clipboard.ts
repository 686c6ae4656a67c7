import type { Clip } from '../plan/copy.ts';

/** What was copied last, on whatever plan: it stays while the page is open, also where the system's clipboard is closed to pages. */
let held: Clip | null = null;
let pasted = 0;

export const clipHeld = (): Clip | null => held;

export function keepClip(clip: Clip): void {
  held = clip;
  pasted = 0;
}

/** Counts how often it was pasted, so that each lies a step further on. */
export function nextPaste(): number {
  pasted++;
  return pasted;
}
