import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bendCount, cornersOf, lengthOf, longestPiece, simplify, throughBends } from '../../src/drawing/polyline.ts';
import { textWidth, wrapText } from '../../src/drawing/text.ts';

describe('polylines', () => {
  it('drops repeats, middles and turnings back', () => {
    expect(simplify([0, 0, 0, 0, 10, 0, 20, 0, 20, 10])).toEqual([0, 0, 20, 0, 20, 10]);
    expect(simplify([0, 0, 30, 0, 10, 0])).toEqual([0, 0, 10, 0]);
    expect(bendCount([0, 0, 20, 0, 20, 10])).toBe(1);
  });

  it('measures length and the longest piece', () => {
    const line = [0, 0, 20, 0, 20, 50, 60, 50];
    expect(lengthOf(line)).toBe(110);
    expect(longestPiece(line)).toEqual({ a: { x: 20, y: 0 }, b: { x: 20, y: 50 }, length: 50 });
    expect(cornersOf(line)).toEqual([
      { x: 20, y: 0 },
      { x: 20, y: 50 },
    ]);
  });

  it('keeps a staircase of bends placed by hand exactly', () => {
    const steps = fc.uniqueArray(fc.integer({ min: 2, max: 60 }), { minLength: 2, maxLength: 5 }).map((list) => [...list].sort((p, q) => p - q));
    fc.assert(
      fc.property(steps, (xs) => {
        const heights = xs.map((_, i) => (i % 2 === 0 ? 100 : 400));
        const bends = xs.flatMap((x, i) => [
          { x: x * 10, y: i === 0 ? 300 : (heights[i - 1] as number) },
          { x: x * 10, y: heights[i] as number },
        ]);
        const end = { x: 700, y: heights[heights.length - 1] as number, side: 'left' as const };
        const line = throughBends({ x: 0, y: 300, side: 'right' }, end, bends);
        expect(line).toEqual([0, 300, ...bends.flatMap((b) => [b.x, b.y]), end.x, end.y]);
      }),
    );
  });

  it('leaves and enters by the side also when a bend lies behind the pad', () => {
    const line = throughBends({ x: 100, y: 100, side: 'right' }, { x: 300, y: 300, side: 'left' }, [{ x: 50, y: 200 }]);
    expect(line.slice(0, 4)).toEqual([100, 100, 110, 100]);
    expect(line.slice(-4, -2)[1]).toBe(300);
    for (let i = 0; i + 3 < line.length; i += 2) expect(line[i] === line[i + 2] || line[i + 1] === line[i + 3]).toBe(true);
  });
});

describe('text widths', () => {
  it('rather over- than underestimates a sans face (Arial advance widths: "Hold relay" 4.502 em, "W12" 2.056 em)', () => {
    // Advance widths of Arial in units of 1/2048 em, from memory: H 1479, o 1139, l 455, d 1139, space 569, r 682, e 1139, a 1139, y 1024; W 1933, digits 1139.
    expect(textWidth('Hold relay', 10)).toBeGreaterThanOrEqual(45.02);
    expect(textWidth('Hold relay', 10)).toBeLessThan(45.02 * 1.35);
    expect(textWidth('W12', 10)).toBeGreaterThanOrEqual(18.5);
  });

  it('wraps at spaces only', () => {
    expect(wrapText('Video sender', 12, 60)).toEqual(['Video', 'sender']);
    expect(wrapText('Optocoupler', 12, 20)).toEqual(['Optocoupler']);
  });
});
