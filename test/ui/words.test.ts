import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { KEY_POSITIONS } from '../../src/analysis/types.ts';
import { KEY_MEANING, keyFor, STATE_WORDS } from '../../src/faces/words.ts';
import { EXTRA_STATES, STATES } from '../../src/trade/supply.ts';
import { meaningOf } from '../../src/trade/terms.ts';

const FACES = ['faces', 'ui', 'ledger', 'shelf', 'keycycle', 'canvas'];
const sources = FACES.flatMap((room) =>
  readdirSync(join('src', room), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.tsx'))
    .map((name) => ({ name: `${room}/${name}`, text: readFileSync(join('src', room, name), 'utf8') })),
);

describe('words on screen', () => {
  const used = sources.flatMap(({ name, text }) => [...text.matchAll(/<Term word="([^"]+)"/g)].map((m) => ({ name, word: m[1] ?? '' })));

  it('uses the term piece at all', () => expect(used.length).toBeGreaterThan(5));

  it.each(used)('$word in $name opens a meaning', ({ word }) => expect(meaningOf(word)).toBeTruthy());

  it('every Term names its word as plain text, or this test could not see it', () => {
    // TermText takes its words from the table of meanings.
    for (const { name, text } of sources) if (name !== 'faces/TermText.tsx') expect(text.match(/<Term [^>]*word=\{/g), name).toBeNull();
  });

  it('never calls a plan safe', () => {
    for (const { name, text } of sources) expect(text.match(/\b(is|are|all|looks?|now) safe\b/i), name).toBeNull();
  });
});

describe('states in words', () => {
  it('names every state of the vehicle', () => {
    for (const state of [...STATES, ...EXTRA_STATES]) expect(STATE_WORDS[state]).toBeTruthy();
  });

  it('shows each key position by itself', () => {
    for (const { key, state } of KEY_POSITIONS) {
      expect(keyFor(state)).toBe(key);
      expect(KEY_MEANING[key]).toMatch(/\.$/);
    }
  });

  it('shows a state without a position of its own by the nearest', () => {
    expect(keyFor('RETAIN_DOOR')).toBe('Held');
    expect(keyFor('OFF_AWAKE')).toBe('Parked');
    expect(keyFor('AUTO_CRANK')).toBe('Start');
  });
});
