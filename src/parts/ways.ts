import { amount } from './settings.ts';
import type { Setting, Settings } from './types.ts';

/** The setting that says how many ways a strip or connector has. */
export function waySettings(max: number): Setting {
  return amount('ways', 'Ways', '', [1, 4, max], 'common size, no source');
}

/** Number of ways, whole. */
export function waysOf(s: Settings): number {
  return Math.round(s.num('ways'));
}

/** Terminal ids of one side: `a1`, `a2` ... */
export function wayIds(letter: 'a' | 'b', s: Settings): string[] {
  return Array.from({ length: waysOf(s) }, (_, i) => `${letter}${i + 1}`);
}
