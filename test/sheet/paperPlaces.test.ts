import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { settlePlan } from '../../src/advise/settle.ts';
import { viewsOf } from '../../src/analysis/views.ts';
import { readPlan } from '../../src/codec/index.ts';
import { boxOf, inflate, overlaps } from '../../src/drawing/box.ts';
import { lengthOf } from '../../src/drawing/polyline.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { boxOfPrimitive } from '../../src/scene/labels.ts';
import { readable } from '../../src/sheet/clearNames.ts';
import { scenePrimitives } from '../../src/sheet/drawing.ts';
import { itemTexts, placedForPaper } from '../../src/sheet/paperPlaces.ts';
import { paperTag, slipSize } from '../../src/sheet/slips.ts';

const FOLDER = 'public/plans';

/** Texts of the printed drawing that lie on one another, as "K11 / W15 RD/WH". */
function clashes(file: string): string[] {
  const read = readPlan(readFileSync(`${FOLDER}/${file}`, 'utf8'));
  if (!read.ok) throw new Error(file);
  const { filled } = settlePlan(read.plan);
  const items = new Map([...viewsOf(filled)].map(([id, view]) => [id, view.item]));
  const scene = placedForPaper(buildScene(filled), items);
  // A wire between two neighbours that is shorter than its slip has no place where the slip would cover nothing.
  const tooShort = new Set([...scene.wires.values()].filter((w) => lengthOf(w.points) < slipSize(paperTag(w)).w + 10).map(paperTag));
  const texts = scenePrimitives(scene, items).flatMap((p) => (p.t === 'text' && !tooShort.has(p.text) ? [{ text: p.text, box: boxOfPrimitive(p) }] : []));
  return texts.flatMap((a, i) =>
    texts
      .slice(i + 1)
      .filter((b) => overlaps(a.box, b.box))
      .map((b) => `${a.text} / ${b.text}`),
  );
}

/** Item numbers through which a wire runs. */
function struckOut(file: string): string[] {
  const read = readPlan(readFileSync(`${FOLDER}/${file}`, 'utf8'));
  if (!read.ok) throw new Error(file);
  const { filled } = settlePlan(read.plan);
  const scene = buildScene(filled);
  const texts = [...itemTexts(scene, new Map([...viewsOf(filled)].map(([id, view]) => [id, view.item]))).values()];
  const pieces = [...scene.wires.values()].flatMap(({ points }) =>
    Array.from({ length: points.length / 2 - 1 }, (_, i) => {
      const [x0, y0, x1, y1] = points.slice(2 * i, 2 * i + 4) as [number, number, number, number];
      return boxOf({ x: x0, y: y0 }, { x: x1, y: y1 });
    }),
  );
  return texts.filter((text) => pieces.some((piece) => overlaps(inflate(piece, 0.5), boxOfPrimitive(text)))).map((text) => text.text);
}

describe('the printed drawing', () => {
  it.each(readdirSync(FOLDER))('has no item number on a wire: %s', (file) => {
    expect(struckOut(file)).toEqual([]);
  });

  it.each(readdirSync(FOLDER))('has every part’s name clear of the labels of its terminals, at the size of paper: %s', (file) => {
    const read = readPlan(readFileSync(`${FOLDER}/${file}`, 'utf8'));
    if (!read.ok) throw new Error(file);
    const { filled } = settlePlan(read.plan);
    for (const part of placedForPaper(buildScene(filled), new Map()).parts.values()) {
      const boxes = part.primitives.flatMap((p) => (p.t === 'text' ? [{ text: p.text, box: boxOfPrimitive(readable(p)) }] : []));
      const near = boxes.flatMap((a, i) => boxes.slice(i + 1).flatMap((b) => (overlaps(a.box, b.box) ? [`${a.text} / ${b.text}`] : [])));
      expect(near, part.id).toEqual([]);
    }
  });

  it.each(readdirSync(FOLDER))('has no text on another text: %s', (file) => {
    expect(clashes(file)).toEqual([]);
  });
});
