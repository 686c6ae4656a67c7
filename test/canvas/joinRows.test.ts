import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { endRows, findEnds, otherEnds, refusal } from '../../src/canvas/joinRows.ts';
import type { Plan } from '../../src/plan/types.ts';

const plan = JSON.parse(readFileSync('public/plans/mobile-library-van.plan.json', 'utf8')) as Plan;
const rows = endRows(plan);
const first = (typed: string): string | undefined => findEnds(rows, typed, plan)[0]?.text;

describe('terminals found by typing', () => {
  it('takes what stands at the terminal before what its title says: pin 1 before GPIO 1', () => {
    expect(first('computer 1')).toBe('Computer · 1: Pin 1, 3.3 V');
    expect(first('computer gpio 17')).toBe('Computer · 11: Pin 11, GPIO 17');
  });
  it('goes by the numbers of the drawing, and tells the two ends of a fuse apart', () => {
    expect(first('f1 load')).toBe('Supply fuse · Side towards the load');
    expect(first('f1 source')).toBe('Supply fuse · Side towards the source');
  });
  it('wants every typed word', () => {
    expect(findEnds(rows, 'computer horn', plan)).toEqual([]);
  });
  it('offers as the other end what suits best first, and never what refuses a wire', () => {
    const row = (typed: string) => findEnds(rows, typed)[0] ?? { key: '', end: { part: '', terminal: '' } };
    const others = otherEnds(plan, rows, row('computer 3').end).map((r) => r.key);
    expect(others.length).toBeGreaterThan(20);
    // Pin 11 has its one wire already; a full pin goes nowhere.
    expect(others).not.toContain(row('computer 11').key);
    expect(otherEnds(plan, rows, row('computer 11').end)).toEqual([]);
  });
  it('says why the terminal that was meant is refused, and never falls through to one of a like name', () => {
    const from = findEnds(rows, 'computer 3')[0];
    if (!from) throw new Error('no pin 3');
    const others = otherEnds(plan, rows, from.end);
    const why = (typed: string) => refusal(plan, rows, from.end, typed, findEnds(others, typed));
    expect(why('computer 11')).toMatch(/header cell takes one wire/);
    expect(why('r3 1')).toBeNull();
  });
});
