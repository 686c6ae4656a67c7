import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import type { Results } from '../../src/advise/types.ts';
import { readPlan } from '../../src/codec/index.ts';
import { reportJson } from '../../src/sheet/report/json.ts';
import { sheetHtml } from '../../src/sheet/sheetHtml.ts';

/** What a fitter reads off the sheets of whole builds. */

const resultsOf = (name: string): Results => {
  const read = readPlan(readFileSync(`public/plans/${name}.plan.json`, 'utf8'));
  if (!read.ok) throw new Error(name);
  return computeResults(read.plan);
};
const van = resultsOf('mobile-library-van');
const groomer = resultsOf('slope-groomer');
const pickup = resultsOf('beekeepers-pickup');
const minibus = resultsOf('school-minibus');

/** Cells of every row that begins with a text, tags left out. */
function rows(results: Results, begins: string): string[][] {
  const html = sheetHtml(results, { paper: 'A4', date: '2025-03-04' });
  const all = [...html.matchAll(/<tr>(.*?)<\/tr>/gs)].map((row) =>
    [...(row[1] as string).matchAll(/<t[dh][^>]*>(.*?)<\/t[dh]>/gs)].map((cell) =>
      (cell[1] as string)
        .replace(/<[^>]+>/g, ' ')
        .replaceAll('\u00a0', ' ')
        .replace(/\s+/g, ' ')
        .trim(),
    ),
  );
  return all.filter(([first]) => first?.startsWith(begins));
}

describe('the sheet of a whole build', () => {
  it('says what a converter lets through where no lead of the vehicle drives a short', () => {
    const [f4] = rows(van, 'F4');
    // The step-down is set to at most 8 A.
    expect(f4?.[7]).toBe('8 A limit of T1');
    expect(rows(van, 'F1').find((r) => r.length === 10)?.[7]).toMatch(/^2\d\.\d A$/);
    const { fuses } = reportJson(van, []) as { fuses: { limitA: number | null; limitedBy: string | null; greatestShortA: number | null }[] };
    expect(fuses.map((f) => f.limitA)).toEqual([null, null, 8]);
    expect(fuses.map((f) => f.greatestShortA === null)).toEqual([false, false, true]);
  });

  it('expects a permanent lead live and a retained one dead once a door is open', () => {
    expect(rows(van, 'X2 Constant').find((r) => r[4] === 'expected')?.[11]).toMatch(/^12\.\d V$/);
    expect(rows(minibus, 'X2 Retained').find((r) => r[4] === 'expected')?.[11]).toBe('0 V');
  });

  it('says of a latch when it is closed, key by key', () => {
    const [latch] = rows(groomer, 'K1 Hold latch');
    expect(latch?.slice(1)).toEqual(['open', 'open', 'closed', 'closed', 'closed', expect.stringMatching(/^(open|closed)$/)]);
  });

  it('says that a feed is dead in Start instead of a least of 0 V', () => {
    expect(rows(minibus, 'T1 Step-down: lowest input')[0]?.[1]).toBe('0 V: its feed is dead in Start');
    expect(rows(minibus, 'T1 Step-down: lowest output')).toEqual([]);
    for (const results of [van, groomer, minibus, pickup]) expect(sheetHtml(results, { paper: 'A4', date: 'x' })).not.toContain('not below 0\u00a0V');
  });

  it('expects of a start what a sound battery gives where a flat one has been cut off', () => {
    expect(rows(pickup, 'T1 Step-down: lowest input')[0]?.[1]).toMatch(/^about 10\.\d V$/);
    expect(rows(pickup, 'T1 Step-down: lowest output')[0]?.[1]).toMatch(/^about 5\.\d+ V$/);
  });
});
