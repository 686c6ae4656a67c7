import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceToSegment, GridIndex } from '../../src/drawing/grid.ts';
import type { Box } from '../../src/drawing/types.ts';

const box = fc.record({
  x: fc.integer({ min: -900, max: 900 }),
  y: fc.integer({ min: -900, max: 900 }),
  w: fc.integer({ min: 0, max: 400 }),
  h: fc.integer({ min: 0, max: 400 }),
});

describe('grid index', () => {
  it('finds exactly what a plain search finds, each once, in order of adding', () => {
    fc.assert(
      fc.property(fc.array(box, { maxLength: 40 }), box, (items, query) => {
        const index = new GridIndex<number>(100);
        for (const [i, b] of items.entries()) index.add(i, b);
        const meets = (a: Box, b: Box) => a.x <= b.x + b.w && b.x <= a.x + a.w && a.y <= b.y + b.h && b.y <= a.y + a.h;
        expect(index.near(query)).toEqual(items.flatMap((b, i) => (meets(b, query) ? [i] : [])));
      }),
    );
  });

  it('measures to the piece, not to the line it lies on', () => {
    expect(distanceToSegment(0, 5, 0, 0, 10, 0)).toBe(5);
    expect(distanceToSegment(13, 4, 0, 0, 10, 0)).toBe(5);
    expect(distanceToSegment(3, 4, 0, 0, 0, 0)).toBe(5);
  });
});
