import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { settlePlan } from '../../src/advise/settle.ts';
import { viewsOf } from '../../src/analysis/views.ts';
import { readPlan } from '../../src/codec/index.ts';
import type { Box, Primitive } from '../../src/drawing/types.ts';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { scenePrimitives } from '../../src/sheet/drawing.ts';
import { drawingPages } from '../../src/sheet/drawingPages.ts';
import { overview } from '../../src/sheet/overview.ts';
import { drawingRoom } from '../../src/sheet/style.ts';
import { printInk, svgOf } from '../../src/sheet/svg.ts';
import { demoPlan } from '../bench/largePlan.ts';
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

  /** Largest and smallest type of a drawing on paper, pt. */
  const typePt = (svg: string): number[] => {
    const [, width, , , , viewW] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="(\S+) (\S+) (\S+)/.exec(svg) as unknown as number[];
    return [...svg.matchAll(/font-size="([\d.]+)"/g)].map((m) => ((Number(m[1]) * Number(width)) / Number(viewW) / 25.4) * 72);
  };
  const paged = (paper: 'A4' | 'Letter', plan: Plan) => drawingPages(buildScene(plan), items, drawingRoom(paper, false), drawingRoom(paper, true));

  it.each(['A4', 'Letter'] as const)('takes as few pages of %s as type of 8 pt asks for, none larger than its room', (paper) => {
    for (const drawn of [plan, demoPlan]) {
      const pages = paged(paper, drawn);
      for (const page of pages) {
        const room = drawingRoom(paper, page.lying);
        const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(page.svg) as unknown as number[];
        expect(Number(width)).toBeLessThanOrEqual(room.w + 0.01);
        expect(Number(height)).toBeLessThanOrEqual(room.h + 0.01);
        expect(Math.min(...typePt(page.svg))).toBeGreaterThanOrEqual(7.95);
      }
      expect(pages.every((p) => p.lying === pages[0]?.lying)).toBe(true);
    }
    expect(paged(paper, demoPlan)).toHaveLength(3);
  });

  it('leaves nothing out between its pieces', () => {
    const pages = paged('A4', demoPlan);
    for (const tag of Object.values(demoPlan.wires).flatMap((w) => (w.owner === 'build' && w.number ? [`W${w.number}`] : [])))
      expect(
        pages.some((p) => new RegExp(`>${tag}( |<)`).test(p.svg)),
        tag,
      ).toBe(true);
  });

  it.each(readdirSync('public/plans'))('shows every part whole on one of its pieces: %s', (file) => {
    const read = readPlan(readFileSync(`public/plans/${file}`, 'utf8'));
    if (!read.ok) throw new Error(file);
    const drawn = buildScene(settlePlan(read.plan).filled);
    for (const paper of ['A4', 'Letter'] as const) {
      const pages = drawingPages(drawn, items, drawingRoom(paper, false), drawingRoom(paper, true));
      const holds = (page: Box, b: Box): boolean => b.x >= page.x && b.y >= page.y && b.x + b.w <= page.x + page.w && b.y + b.h <= page.y + page.h;
      for (const part of drawn.parts.values())
        expect(
          pages.some((p) => holds(p.box, part.box)),
          `${paper}: ${part.id}`,
        ).toBe(true);
      for (const page of pages) expect(Math.min(...typePt(page.svg))).toBeGreaterThanOrEqual(7.95);
    }
  });

  it('keeps a small drawing on one page', () => {
    const few = { ...scene, parts: new Map(), wires: new Map(), joints: [], bounds: { x: 0, y: 0, w: 300, h: 200 } };
    expect(drawingPages(few, items, { w: 190, h: 265 }, { w: 277, h: 178 })).toHaveLength(1);
  });

  it('shows the whole once by item numbers, all of them in 8 pt, with what each piece holds', () => {
    const demo = buildScene(demoPlan);
    const names = new Map([...viewsOf(demoPlan)].map(([id, v]) => [id, v.item]));
    const svg = overview(
      demo,
      names,
      paged('A4', demoPlan).map((p) => p.box),
      190,
      105,
    );
    for (const pt of typePt(svg)) expect(pt).toBeCloseTo(8, 1);
    for (const item of names.values()) expect(svg).toContain(`>${item}<`);
    for (const n of [1, 2, 3]) expect(svg).toContain(`piece ${n}`);
  });

  it('puts a rim of paper round dark text where it is asked for, and never round white text', () => {
    const two: Primitive[] = (['ink', 'paper'] as const).map((ink) => ({ t: 'text', x: 0, y: 0, text: ink, size: 9, ink }));
    const svg = svgOf(two, { view: { x: 0, y: 0, w: 9, h: 9 }, title: 'x', halo: true });
    expect(svg.match(/paint-order="stroke"/g)).toHaveLength(1);
    expect(svg).toMatch(/paint-order="stroke">ink</);
  });
});
