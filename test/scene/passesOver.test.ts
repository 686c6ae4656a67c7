import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PassesOver, passesOver } from '../../src/scene/passesOver.ts';
import { runs } from '../runs.ts';

/** Right-angled lines on the raster: up to four pieces, lying and standing in turn. */
const line = fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 3, maxLength: 6 }).map((steps) => {
  const pts = [(steps[0] as number) * 10, (steps[1] as number) * 10];
  steps.slice(2).forEach((v, i) => {
    const [x, y] = [pts[pts.length - 2] as number, pts[pts.length - 1] as number];
    pts.push(...(i % 2 === 0 ? [v * 10, y] : [x, v * 10]));
  });
  return pts;
});

/** Places in order; what lies below at one and the same place in any order. */
const told = (over: PassesOver) => [...over].map(([id, { at, under }]) => [id, at, at.map(({ x, y }, i) => `${x} ${y} ${under[i]}`).sort()]);

describe('where wires pass over wires', () => {
  it('is known afresh or from what was known before alike: ways change, wires go and come', () => {
    fc.assert(
      fc.property(fc.array(line, { minLength: 8, maxLength: 20 }), fc.array(line, { maxLength: 3 }), fc.nat(), fc.nat(), (were, news, at, gone) => {
        const before = new Map(were.map((pts, i) => [`w${i}`, pts]));
        const now = new Map(before);
        for (const [i, pts] of news.entries()) now.set(`w${(at + i) % (were.length + 1)}`, pts);
        now.delete(`w${gone % were.length}`);
        expect(told(passesOver(now, { lines: before, over: passesOver(before) }))).toEqual(told(passesOver(now)));
      }),
      { numRuns: runs(200) },
    );
  });

  it('is the very same list for a wire that nothing new meets', () => {
    const before = new Map([...Array(8).keys()].map((i) => [`w${i}`, [0, 10 * i, 100, 10 * i]] as [string, number[]]).concat([['up', [50, -10, 50, 25]]]));
    const over = passesOver(before);
    const now = new Map(before).set('w7', [0, 200, 100, 200]);
    expect(passesOver(now, { lines: before, over }).get('up')).toBe(over.get('up'));
  });
});
