/** Every word of the trade and of our own has one sentence, and every word marked on screen has an entry. */
import { describe, expect, it } from 'vitest';
import { OWN_WORDS } from '../../src/trade/ownWords.ts';
import { meaningOf, TERMS } from '../../src/trade/terms.ts';
import { TRADE_WORDS } from '../../src/trade/tradeWords.ts';
import { bare, sourceFiles } from './source.ts';

/** Words that a face marks: `<Term word="...">`, `<Term word={'...'}>`, `term('...')`. */
function markedWords(text: string): readonly string[] {
  const code = bare(text, true);
  const tags = [...code.matchAll(/<Term\b[^>]*?\bword=(?:"([^"]*)"|\{\s*['"`]([^'"`$]*)['"`]\s*\})/g)].map((m) => m[1] ?? m[2]!);
  const calls = [...code.matchAll(/(?<![.\w])term\(\s*['"`]([^'"`$]*)['"`]/g)].map((m) => m[1]!);
  return [...tags, ...calls];
}

const missing = (words: readonly string[]): readonly string[] => words.filter((word) => !Object.hasOwn(TERMS, word));

describe('meanings', () => {
  it.each(Object.entries(TERMS))('%s', (word, sentence) => {
    expect(word).toBe(word.toLowerCase().trim());
    expect(sentence, 'starts with a capital or a number and ends in a full stop').toMatch(/^[A-Z0-9].*\.$/);
    expect(sentence.match(/[.!?](?=\s|$)/g), 'one sentence').toHaveLength(1);
    expect(sentence.length, 'short enough to read at a glance').toBeLessThanOrEqual(180);
    expect(sentence).not.toMatch(/\bsafe\b/i);
  });

  it('no word has two meanings', () => {
    expect(Object.keys(OWN_WORDS).filter((word) => word in TRADE_WORDS)).toEqual([]);
  });

  it('the tool’s own words are all there', () => {
    const own =
      'plan, alternative, zone, run, lead, tap, feed, owner, part, terminal, wire, splice, set, automatic, key position, band, reading, finding, shelf, key cycle, job line, wiring sheet, hazard, fault, advice, planning limit, parked draw, unprotected length, worst case';
    expect(missing(own.split(', '))).toEqual([]);
  });

  it('the trade’s words are all there', () => {
    const trade =
      'ampacity, drop, terminal 15, terminal 30, terminal 31, terminal 50, terminal 58, terminal 75, donor fuse, optocoupler, ctr, pull-up, uvlo, load dump, clamp, chassis, back-feed, hold relay, crimp, awg, mm2, ground, fuse, gpio';
    expect(missing(trade.split(', '))).toEqual([]);
  });

  it('are found in any case, and an unknown word has none', () => {
    expect(meaningOf(' UVLO ')).toBe(TERMS.uvlo);
    expect(meaningOf('constructor')).toBeUndefined();
  });
});

describe('words on screen', () => {
  it('every marked word has an entry, spelled as in the list', () => {
    const without = sourceFiles().flatMap((file) => missing(markedWords(file.text)).map((word) => `${file.path}: "${word}"`));
    expect(without).toEqual([]);
  });

  it('a marked word without an entry would be seen', () => {
    const planted = `<Term word="drop">drop</Term> <Term word="gizmo" /> <Term\n  word={'gadget'}\n/> {term('widget')} // <Term word="whatsit">`;
    expect(missing(markedWords(planted))).toEqual(['gizmo', 'gadget', 'widget']);
  });
});
