import { describe, expect, it } from 'vitest';
import { account } from '../../src/rules/account/index.ts';
import { rules } from '../../src/rules/index.ts';

/** How many entries each group of the catalogue has. */
const ENTRIES = { A: 19, B: 16, C: 17, D: 15, E: 16, F: 15, G: 8, H: 10, I: 12, J: 12, K: 7, L: 16 } as const;
const codes = Object.entries(ENTRIES).flatMap(([group, n]) => Array.from({ length: n }, (_, i) => `${group}${i + 1}`));
const ruled = new Set(rules.map((r) => r.code));
const told = account.map((a) => a.code);

/** A sentence of its own, not a keyword. */
const SENTENCE = /^[A-Z0-9].{19,}\.$/s;

describe('account of the catalogue', () => {
  it('has 163 entries', () => expect(codes).toHaveLength(163));

  it('leaves no entry out', () => {
    expect(codes.filter((code) => !ruled.has(code) && !told.includes(code))).toEqual([]);
  });

  it('tells of each entry in one place: as a rule, or in one line', () => {
    expect(told.filter((code) => ruled.has(code))).toEqual([]);
    expect(told.filter((code, i) => told.indexOf(code) !== i)).toEqual([]);
  });

  it('knows no other entries', () => {
    expect([...ruled, ...told].filter((code) => !codes.includes(code))).toEqual([]);
  });

  it.each(account.map((a) => [a.code, a] as const))('%s says why, in a sentence', (_, entry) => {
    expect(entry.reason).toMatch(SENTENCE);
    if (entry.how === 'checklist') expect(entry.line).toMatch(SENTENCE);
    if (entry.how === 'in rule') expect(rules.map((r) => r.id)).toContain(entry.rule);
  });
});
