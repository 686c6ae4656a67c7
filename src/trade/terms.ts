/**
 * What a word on the screen means: one sentence each, for a beginner. Keys are lower case.
 * Two parts: words of the trade and of open standards, and the tool's own words. A test refuses a word on screen without an entry.
 */
import { OWN_WORDS } from './ownWords.ts';
import { TRADE_WORDS } from './tradeWords.ts';

export const TERMS: Record<string, string> = { ...TRADE_WORDS, ...OWN_WORDS };

/** The sentence for a word in any case; undefined when there is none. */
export function meaningOf(word: string): string | undefined {
  const key = word.trim().toLowerCase();
  return Object.hasOwn(TERMS, key) ? TERMS[key] : undefined;
}
