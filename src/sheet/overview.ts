import { textWidth, wrapText } from '../drawing/text.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { Scene } from '../scene/types.ts';
import { viewOf } from './drawingPages.ts';
import { svgOf } from './svg.ts';

/** 8 pt, mm. */
const TYPE_MM = (8 * 25.4) / 72;
/** Height of one line of brackets under the plan, mm. */
const LINE_MM = 4;

/**
 * The whole plan small, to find one's way: zones with their names, the parts by their item numbers, the run of the
 * wires, and which piece of the drawing shows what. All its type is 8 pt.
 * @param pieces what each piece of the drawing shows, u
 */
export function overview(scene: Scene, items: ReadonlyMap<Id, string>, pieces: readonly Box[], wMm: number, hMm: number): string {
  const view = viewOf(scene);
  const lines = 1 + Math.max(...pieces.map((_, i) => lineOf(pieces, i)));
  const mmPerU = Math.min(wMm / view.w, (hMm - lines * LINE_MM) / view.h);
  const size = TYPE_MM / mmPerU;
  const primitives: Primitive[] = [
    ...scene.zones.flatMap((z): Primitive[] => [{ t: 'rect', ...z.box, ink: 'faint', lw: 0.2 / mmPerU }, ...zoneName(z.name, z.box, size)]),
    ...[...scene.wires.values()].map((w): Primitive => ({ t: 'line', pts: w.points, ink: w.owner === 'vehicle' ? 'faint' : 'ink', w: 0.25 / mmPerU })),
    ...[...scene.parts.values()].flatMap((p) => partPrimitives(p.box, items.get(p.id) ?? '', size, 0.3 / mmPerU)),
    ...brackets(pieces, view, size),
  ];
  const whole = { ...view, h: view.h + (lines * LINE_MM) / mmPerU };
  return svgOf(primitives, { view: whole, title: 'The whole plan by item numbers', widthMm: whole.w * mmPerU, heightMm: whole.h * mmPerU });
}

function zoneName(name: string, box: Box, size: number): Primitive[] {
  const x = box.x + size / 2;
  return wrapText(name, size, box.w - size, true).map((line, i) => ({
    t: 'text',
    x,
    y: box.y + size * (1.4 + 1.15 * i),
    text: line,
    size,
    ink: 'ink',
    bold: true,
  }));
}

function slip(text: string, x: number, y: number, size: number): Primitive[] {
  if (text === '') return [];
  const w = textWidth(text, size, true);
  return [
    { t: 'rect', x: x - w / 2, y: y - size * 0.55, w, h: size * 1.1, fill: 'paper' },
    { t: 'text', x, y: y + size * 0.36, text, size, ink: 'ink', bold: true, anchor: 'middle' },
  ];
}

/** A body with its item number; what is smaller than its number is a slip of paper. */
function partPrimitives(box: Box, item: string, size: number, lw: number): Primitive[] {
  const [x, y] = [box.x + box.w / 2, box.y + box.h / 2];
  const w = Math.max(box.w, textWidth(item, size, true));
  const h = Math.max(box.h, size * 1.2);
  return [{ t: 'rect', x: x - w / 2, y: y - h / 2, w, h, r: 2, fill: 'paper', ink: 'ink', lw }, ...slip(item, x, y, size)];
}

/** Below the plan the width that each piece shows; neighbours overlap, so every second one stands lower. Rows of pieces stand one below the other. */
function brackets(pieces: readonly Box[], view: Box, size: number): Primitive[] {
  return pieces.flatMap((box, i) => {
    const y = view.y + view.h + size * (0.7 + (LINE_MM / TYPE_MM) * lineOf(pieces, i));
    const [x0, x1] = [Math.max(box.x, view.x), Math.min(box.x + box.w, view.x + view.w)];
    const lw = size * 0.1;
    return [
      { t: 'line', pts: [x0, y, x1, y], ink: 'ink', w: lw },
      { t: 'line', pts: [x0, y - size * 0.4, x0, y + size * 0.4], ink: 'ink', w: lw },
      { t: 'line', pts: [x1, y - size * 0.4, x1, y + size * 0.4], ink: 'ink', w: lw },
      ...slip(` piece ${i + 1} `, (x0 + x1) / 2, y, size),
    ] satisfies Primitive[];
  });
}

/** Row of pieces, each in two lines. */
function lineOf(pieces: readonly Box[], i: number): number {
  const rows = [...new Set(pieces.map((p) => p.y))].sort((a, b) => a - b);
  const box = pieces[i] as Box;
  const before = pieces.slice(0, i).filter((p) => p.y === box.y).length;
  return 2 * rows.indexOf(box.y) + (before % 2);
}
