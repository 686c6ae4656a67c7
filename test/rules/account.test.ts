import { describe, expect, it } from 'vitest';
import { makeFacts } from '../../src/analysis/facts.ts';
import { account } from '../../src/rules/account/index.ts';
import { rules } from '../../src/rules/index.ts';
import { compute } from './harness.ts';
import { allKinds, type Bench, bench } from './plans.ts';
import { allHolds, withSound } from './plansSense.ts';

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

  it('tells of each entry in one place: as a rule, or in one line, or in a line for what its rule cannot see', () => {
    const alone = account.filter((a) => !(a.how === 'checklist' && a.beside !== undefined)).map((a) => a.code);
    expect(alone.filter((code) => ruled.has(code))).toEqual([]);
    expect(told.filter((code, i) => told.indexOf(code) !== i)).toEqual([]);
  });

  it('knows no other entries', () => {
    expect([...ruled, ...told].filter((code) => !codes.includes(code))).toEqual([]);
  });

  it.each(account.map((a) => [a.code, a] as const))('%s says why, in a sentence', (_, entry) => {
    expect(entry.reason).toMatch(SENTENCE);
    if (entry.how === 'checklist') expect(entry.line).toMatch(SENTENCE);
    if (entry.how === 'checklist' && entry.beside !== undefined) expect(rules.map((r) => r.id)).toContain(entry.beside);
    if (entry.how === 'in rule') expect(rules.map((r) => r.id)).toContain(entry.rule);
  });
});

describe('lines for what a rule cannot see', () => {
  const printed = (b: Bench, code: string): boolean => {
    const results = compute(b);
    const line = account.find((a) => a.code === code);
    return line?.how === 'checklist' && (line.applies?.(makeFacts(results.filled, results.analysis)) ?? true);
  };

  // ISO 13732-1 (from memory): bare metal that is met for a second burns from about 65 °C on.
  // Under a seat 45 °C; the computer’s 1.2 A (5.12 V, 88 %) turn 0.84 W to heat: 3 K/W make 47.5 °C, 30 K/W make 70 °C.
  it('a converter that burns fingers is measured before it is closed up, a cool one is not', () => {
    expect(printed(bench(), 'K3')).toBe(false);
    expect(printed(bench().set('converter', { rthKPerW: 30 }), 'K3')).toBe(true);
  });

  it('so is a linear regulator: (16 V − 5 V) × 0.06 A and its idle current are 0.7 W, at 65 K/W over 45 °C', () => {
    expect(printed(allKinds()[0]!, 'K3')).toBe(true);
  });

  it('what a pin switches is watched at the first power-up, where it switches anything', () => {
    expect(printed(bench(), 'E12')).toBe(false);
    expect(printed(allHolds(), 'E12')).toBe(true);
  });

  it('a wire too thick for a header contact ends before it: 1.5 mm² at a pin, 0.5 mm² no more', () => {
    const thin = { areaMm2: 0.5 };
    const tails = bench().wireSet('five', thin).wireSet('four', thin).wireSet('zero6', thin).wireSet('zero9', thin).wireSet('zero14', thin);
    expect(printed(bench(), 'B5')).toBe(true);
    expect(printed(tails, 'B5')).toBe(false);
  });

  it('no loudspeaker output at a sound input, where there is one', () => {
    expect(printed(bench(), 'H4')).toBe(false);
    expect(printed(withSound(), 'H4')).toBe(true);
  });
});
