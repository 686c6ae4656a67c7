import { describe, expect, it } from 'vitest';
import type { Primitive } from '../../src/drawing/types.ts';
import * as symbols from '../../src/parts/symbols.ts';

/** Furthest points of a primitive. */
function reach(p: Primitive): { x0: number; x1: number; y0: number; y1: number } {
  if (p.t === 'rect') return { x0: p.x, x1: p.x + p.w, y0: p.y, y1: p.y + p.h };
  if (p.t === 'circle' || p.t === 'arc') return { x0: p.x - p.r, x1: p.x + p.r, y0: p.y - p.r, y1: p.y + p.r };
  if (p.t === 'text') return { x0: p.x, x1: p.x, y0: p.y, y1: p.y };
  const xs = p.pts.filter((_, i) => i % 2 === 0);
  const ys = p.pts.filter((_, i) => i % 2 === 1);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}

describe('module box', () => {
  it('centres terminals on each side at a pitch of 20 and grows with them', () => {
    const two = symbols.moduleBox({ left: ['a', 'b'], right: ['c'] }, 100, 60);
    expect(two).toMatchObject({ w: 100, h: 60 });
    expect(two.pads).toEqual({ a: { x: 0, y: 20, side: 'left' }, b: { x: 0, y: 40, side: 'left' }, c: { x: 100, y: 30, side: 'right' } });
    const five = symbols.moduleBox({ left: ['1', '2', '3', '4', '5'] });
    expect(five.h).toBe(120);
    expect(five.pads['5']).toEqual({ x: 0, y: 100, side: 'left' });
  });
  it('keeps an empty place for null and puts top and bottom on tens', () => {
    const box = symbols.moduleBox({ left: ['a', null, 'b'], top: ['t'], bottom: ['x', 'y'] }, 130, 60);
    expect(box.w % 20).toBe(0);
    expect(box.pads.b!.y - box.pads.a!.y).toBe(40);
    for (const pad of Object.values(box.pads)) expect([pad.x % 10, pad.y % 10]).toEqual([0, 0]);
    expect(box.pads.t).toMatchObject({ y: 0, side: 'top' });
    expect(box.pads.x).toMatchObject({ y: box.h, side: 'bottom' });
  });
  it('draws no name: that is the scene’s', () => {
    expect(symbols.moduleBox({ left: ['a'] }).primitives.some((p) => p.t === 'text')).toBe(false);
  });
});

describe('glyphs', () => {
  const at = (cx: number, cy: number): readonly (readonly [string, readonly Primitive[], number])[] => [
    ['fuse', symbols.fuseGlyph(cx, cy), 16],
    ['resistor', symbols.resistorGlyph(cx, cy), 16],
    ['capacitor', symbols.capacitorGlyph(cx, cy, false), 3],
    ['diode', symbols.diodeGlyph(cx, cy), 8],
    ['zener', symbols.zenerGlyph(cx, cy), 8],
    ['two-way zener', symbols.zenerGlyph(cx, cy, true), 16],
    ['LED', symbols.ledGlyph(cx, cy), 8],
    ['inductor', symbols.inductorGlyph(cx, cy), 16],
    ['transformer', symbols.transformerGlyph(cx, cy), 16],
    ['coil', symbols.coilGlyph(cx, cy), 14],
    ['contact', symbols.contactGlyph(cx, cy), 12],
    ['switch', symbols.switchGlyph(cx, cy), 12],
    ['push button', symbols.pushButtonGlyph(cx, cy), 12],
  ];

  it.each(at(30, 10))('%s fits an in-line body and reaches to its leads', (_name, glyph, half) => {
    const r = glyph.map(reach);
    const x0 = Math.min(...r.map((b) => b.x0));
    expect(x0).toBeCloseTo(30 - half, 6);
    expect(Math.max(...r.map((b) => b.x1))).toBeLessThanOrEqual(30 + 16);
    expect(Math.min(...r.map((b) => b.y0))).toBeGreaterThanOrEqual(-2);
    expect(Math.max(...r.map((b) => b.y1))).toBeLessThanOrEqual(22);
  });
  it.each(at(0, 0))('%s moves with its centre', (name, glyph) => {
    const moved = at(100, 50).find(([n]) => n === name)![1];
    moved.forEach((p, i) => {
      const a = reach(glyph[i]!);
      const b = reach(p);
      expect([b.x0 - a.x0, b.y1 - a.y1]).toEqual([expect.closeTo(100, 6), expect.closeTo(50, 6)]);
    });
  });
  it('shows the conductor through a fuse and none through a resistor, as IEC 60617 does (from memory)', () => {
    expect(symbols.fuseGlyph(0, 0).map((p) => p.t)).toEqual(['rect', 'line']);
    expect(symbols.resistorGlyph(0, 0).map((p) => p.t)).toEqual(['rect']);
  });
  it('flags a fuse in its own ink', () => {
    expect(symbols.fuseFlag(30, 10, 7.5)).toMatchObject({ fill: 'fuse-7.5' });
  });
});
