import { describe, expect, it } from 'vitest';
import type { Primitive } from '../../src/drawing/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { drawingPages, scenePrimitives } from '../../src/sheet/drawing.ts';
import { drawingRoom } from '../../src/sheet/style.ts';
import { printInk, svgOf } from '../../src/sheet/svg.ts';
import { plan } from './fixture.ts';

const EVERY: readonly Primitive[] = [
  { t: 'line', pts: [0, 0, 10.123456, 0, 10.123456, 20], ink: 'wire-RD', w: 2.00001, dash: [4, 8], cap: 'round' },
  { t: 'rect', x: 1, y: 2, w: 3, h: 4, r: 1, fill: 'paper', ink: 'ink', lw: 1.5 },
  { t: 'circle', x: 5, y: 5, r: 2, fill: 'fuse-5' },
  { t: 'poly', pts: [0, 0, 4, 0, 2, 3], fill: 'ink' },
  { t: 'poly', pts: [0, 0, 4, 0, 2, 3], ink: 'soft', open: true },
  { t: 'arc', x: 10, y: 10, r: 5, from: 0, to: 90, ink: 'ink', w: 1 },
  { t: 'arc', x: 10, y: 10, r: 5, from: 0, to: 360, ink: 'ink', w: 1 },
  { t: 'text', x: -0.001, y: 3, text: `2.2 kΩ <&"'>`, size: 9, ink: 'ink', bold: true, anchor: 'middle' },
];

/** Share of light that a printed colour gives back, after the sRGB formula of IEC 61966-2-1 (from memory). */
function lightness(hex: string): number {
  const full = hex.length === 4 ? [...hex.slice(1)].map((c) => c + c).join('') : hex.slice(1);
  const [r, g, b] = [0, 2, 4].map((i) => {
    const c = Number.parseInt(full.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

describe('primitives as SVG', () => {
  it('gives every kind of primitive the saved text, rounded, escaped, with numbered ids', async () => {
    const svg = svgOf(EVERY, { view: { x: 0, y: 0, w: 40, h: 30 }, title: 'Every <kind>', widthMm: 20, heightMm: 15, serial: 3 });
    await expect(svg).toMatchFileSnapshot('saved/every-primitive.svg');
  });

  it('prints whatever carries meaning dark enough for black and white', () => {
    // 4.5 : 1 against white, the contrast that WCAG 2.2, 1.4.3 wants for text (from memory).
    for (const ink of ['ink', 'soft', 'accent', 'hazard', 'fault', 'advice', 'vehicle'] as const) {
      expect((1 + 0.05) / (lightness(printInk(ink)) + 0.05), ink).toBeGreaterThanOrEqual(4.5);
    }
  });
});

describe('the drawing on paper', () => {
  const scene = buildScene(plan);
  const items = new Map([['p3', 'F1']]);

  it('writes number and colour letters on each of our wires and on none of the vehicle’s', () => {
    const texts = scenePrimitives(scene, items).flatMap((p) => (p.t === 'text' ? [p.text] : []));
    for (const tag of ['W1 RD', 'W2 RD/WH', 'W3 BK', 'W4 OG', 'W5 BK', 'W6 GN', 'W7 GN/YE', 'W8 BK']) expect(texts.filter((t) => t === tag)).toHaveLength(1);
    expect(texts).toContain('F1');
    expect(texts.some((t) => t.startsWith('W9'))).toBe(false);
  });

  it('draws a stripe as dashes over the colour', () => {
    const stripes = scenePrimitives(scene, items).filter((p) => p.t === 'line' && p.dash && p.ink === 'wire-WH');
    expect(stripes).toHaveLength(1);
  });

  it('fits one page, and shows it again in pieces of at least 8 pt when the type would be smaller', () => {
    const room = drawingRoom('A4');
    const pages = drawingPages(scene, items, room.w, room.h);
    expect(pages.length).toBeGreaterThan(1);
    for (const [i, page] of pages.entries()) {
      const [, width, height, , , viewW] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="(\S+) (\S+) (\S+)/.exec(page.svg) as unknown as number[];
      expect(Number(width)).toBeLessThanOrEqual(room.w + 0.01);
      expect(Number(height)).toBeLessThanOrEqual(room.h + 0.01);
      const smallest = Math.min(...[...page.svg.matchAll(/font-size="([\d.]+)"/g)].map((m) => Number(m[1])));
      const pt = ((smallest * Number(width)) / Number(viewW) / 25.4) * 72;
      if (i > 0) expect(pt).toBeGreaterThanOrEqual(7.95);
    }
  });

  it('keeps a small drawing on one page', () => {
    const few = { ...scene, parts: new Map(), wires: new Map(), joints: [], bounds: { x: 0, y: 0, w: 300, h: 200 } };
    expect(drawingPages(few, items, 273, 171)).toHaveLength(1);
  });
});
