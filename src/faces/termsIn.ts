import { TRADE_WORDS } from '../trade/tradeWords.ts';

/** Own words that are clear enough to be found in running text; the others are everyday words as well. */
const OWN = ['planning limit', 'unprotected length', 'parked draw', 'hold time', 'source limit', 'meter point', 'starves and cycles'];
/** Trade words that are everyday words too: never underlined in running text. */
const EVERYDAY = new Set([
  'drop',
  'load',
  'ground',
  'return',
  'screen',
  'header',
  'filter',
  'bounce',
  'bundle',
  'stripe',
  'fuse',
  'usb',
  'led',
  'cranking',
  'tolerance',
  'surge',
]);

const words = [...OWN, ...Object.keys(TRADE_WORDS).filter((w) => !EVERYDAY.has(w) && w.length > 2)].sort((a, b) => b.length - a.length);
const escaped = words.map((w) => w.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
// No letter, digit or hyphen may touch the word, so that "relay" is not found in "relays-box"; a plural s may.
const pattern = new RegExp(`(?<![\\p{L}\\d-])(${escaped.join('|')})(?=s?(?![\\p{L}\\d-]))`, 'giu');

export type Piece = { readonly text: string; readonly word: string | null };

/** Cuts a text into plain pieces and terms; each term only where it first stands. */
export function termsIn(text: string): readonly Piece[] {
  const pieces: Piece[] = [];
  const seen = new Set<string>();
  let from = 0;
  for (const hit of text.matchAll(pattern)) {
    const word = (hit[1] ?? '').toLowerCase();
    if (seen.has(word)) continue;
    seen.add(word);
    if (hit.index > from) pieces.push({ text: text.slice(from, hit.index), word: null });
    pieces.push({ text: hit[0], word });
    from = hit.index + hit[0].length;
  }
  if (from < text.length) pieces.push({ text: text.slice(from), word: null });
  return pieces;
}
