import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { markPlace } from '../../src/canvas/marks.ts';
import { readPlan } from '../../src/codec/index.ts';
import { overlaps } from '../../src/drawing/box.ts';
import { buildScene } from '../../src/scene/buildScene.ts';

describe('the mark of a finding on a part', () => {
  it('stands at the upper right where nothing is written there, else at the next corner', () => {
    const box = { x: 100, y: 100, w: 80, h: 50 };
    expect(markPlace({ box, labels: [] })).toEqual({ x: 180, y: 100 });
    expect(markPlace({ box, labels: [{ x: 90, y: 80, w: 100, h: 18 }] })).toEqual({ x: 180, y: 150 });
    // Written above and below: the mark keeps its first place.
    expect(markPlace({ box, labels: [{ x: 80, y: 80, w: 120, h: 90 }] })).toEqual({ x: 180, y: 100 });
  });

  it('covers no part’s own label in any example plan', () => {
    for (const file of readdirSync('public/plans')) {
      const read = readPlan(readFileSync(`public/plans/${file}`, 'utf8'));
      if (!read.ok) throw new Error(file);
      for (const part of buildScene(read.plan).parts.values()) {
        const { x, y } = markPlace(part);
        const covered = part.labels.filter((label) => overlaps(label, { x: x - 9, y: y - 9, w: 18, h: 18 }));
        expect(covered, `${file} ${part.id}`).toEqual([]);
      }
    }
  });
});
