import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { settlePlan } from '../../src/advise/settle.ts';
import { readPlan } from '../../src/codec/index.ts';
import { boxOf, inflate, overlaps } from '../../src/drawing/box.ts';
import type { Box, Point } from '../../src/drawing/types.ts';
import { movePart } from '../../src/plan/edits.ts';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { boxOfPrimitive } from '../../src/scene/labels.ts';
import { tagSize } from '../../src/scene/tags.ts';
import type { PlacedPart, PlacedWire, Scene } from '../../src/scene/types.ts';
import { done, planOf } from './plans.ts';

/**
 * A label that a wire runs through cannot be read. "Avoids parts and labels" is what is asked of the drawing of every
 * example plan; a label that no way could avoid would be named here with its reason. There is none.
 */
const UNAVOIDABLE: readonly string[] = [];

const FOLDER = 'public/plans';
const filled = (file: string): Plan => {
  const read = readPlan(readFileSync(`${FOLDER}/${file}`, 'utf8'));
  if (!read.ok) throw new Error(file);
  return settlePlan(read.plan).filled;
};

/** The straight pieces of a wire, as thick as it is drawn. */
function pieces({ points, width }: PlacedWire): Box[] {
  const out: Box[] = [];
  for (let i = 0; i + 3 < points.length; i += 2) {
    const [x0, y0, x1, y1] = points.slice(i, i + 4) as [number, number, number, number];
    out.push(inflate(boxOf({ x: x0, y: y0 }, { x: x1, y: y1 }), width / 2));
  }
  return out;
}

const around = (at: Point, { w, h }: { readonly w: number; readonly h: number }): Box => ({ x: at.x - w / 2, y: at.y - h / 2, w, h });

/** "W10 through Bulk capacitor" for each wire that runs through a label of a part. */
function struckOut(scene: Scene): string[] {
  const labels = [...scene.parts.values()].flatMap((part) => part.labels.map((box) => ({ box, name: part.name })));
  return [...scene.wires.values()].flatMap((wire) =>
    labels.filter(({ box }) => pieces(wire).some((piece) => overlaps(piece, box))).map(({ name }) => `${wire.tag || wire.id} through ${name}`),
  );
}

describe('labels of parts', () => {
  it.each(readdirSync(FOLDER))('are run through by no wire: %s', (file) => {
    const found = struckOut(buildScene(filled(file)));
    expect(found.filter((line) => !UNAVOIDABLE.includes(line))).toEqual([]);
  });

  it.each(readdirSync(FOLDER))('are covered by no number of a wire, no other part and no other label: %s', (file) => {
    const scene = buildScene(filled(file));
    const parts = [...scene.parts.values()];
    const tags = [...scene.wires.values()].filter((w) => w.tag !== '').map((w) => ({ name: w.tag, box: around(w.tagAt, tagSize(w.tag)) }));
    const covered = parts.flatMap((part) =>
      part.labels.flatMap((label) => {
        const others = parts.filter((p) => p !== part).flatMap((p) => [p.box, ...p.labels].map((box) => ({ name: p.name, box })));
        return [...others, ...tags].filter(({ box }) => overlaps(box, label)).map(({ name }) => `${part.name} by ${name}`);
      }),
    );
    expect(covered).toEqual([]);
  });
});

describe('a label whose place is taken', () => {
  // A diode upright to the left of a sensor, whose wired terminal lies level with the diode's middle.
  const near = planOf(
    [
      { key: 'diode', kind: 'diode', zone: 'z2', x: 60, y: 60, turn: 1, name: 'Reverse diode' },
      { key: 'fuse', kind: 'blade-fuse', zone: 'z2', x: 155, y: 80 },
      { key: 'feed', kind: 'feed-30', zone: 'z2', x: 30, y: 300, owner: 'vehicle' },
    ],
    [{ from: ['feed', 'out'], to: ['fuse', '1'] }],
  );
  const diode = (plan: Plan, before?: Scene) => buildScene(plan, before).parts.get(near.ids.diode ?? '') as PlacedPart;

  it('stands elsewhere beside its part, off the neighbour and the first piece of its wire', () => {
    const scene = buildScene(near.plan);
    expect(struckOut(scene)).toEqual([]);
    const [label] = diode(near.plan).labels;
    const alone = buildScene(done(near.plan, movePart(near.plan, near.ids.fuse ?? '', { x: 400, y: 80 })));
    const [wished] = (alone.parts.get(near.ids.diode ?? '') as PlacedPart).labels;
    expect(label).not.toEqual(wished);
    for (const other of [scene.parts.get(near.ids.fuse ?? ''), scene.parts.get(near.ids.feed ?? '')] as PlacedPart[])
      expect(overlaps(other.box, label as Box)).toBe(false);
  });

  it('is where its texts are', () => {
    const { labels, primitives } = diode(near.plan);
    const texts = primitives.filter((p) => p.t === 'text' && 'Reverse diode'.includes(p.text));
    expect(texts.length).toBeGreaterThan(0);
    for (const text of texts) expect(overlaps(boxOfPrimitive(text), labels[0] as Box)).toBe(true);
  });

  it('goes back once there is room, whatever was drawn before: the same plan, the same drawing', () => {
    const apart = done(near.plan, movePart(near.plan, near.ids.fuse ?? '', { x: 400, y: 80 }));
    expect(diode(apart, buildScene(near.plan)).labels).toEqual(diode(apart).labels);
    expect(diode(near.plan, buildScene(apart)).labels).toEqual(diode(near.plan).labels);
  });
});

describe('wires that were there before a label', () => {
  it('make way for one that comes to lie on them', () => {
    const { plan, ids } = planOf(
      [
        { key: 'feed', kind: 'feed-30', zone: 'z2', x: 30, y: 100, owner: 'vehicle' },
        { key: 'fuse', kind: 'blade-fuse', zone: 'z3', x: 300, y: 105 },
        { key: 'pull', kind: 'resistor', zone: 'z3', x: 100, y: 300, name: 'Pull-up for the door' },
      ],
      [{ from: ['feed', 'out'], to: ['fuse', '1'] }],
    );
    const before = buildScene(plan);
    const line = [...before.wires.values()][0] as PlacedWire;
    const part = before.parts.get(ids.pull ?? '') as PlacedPart;
    // So far up that the label, not the body, lies on the wire.
    const rise = (part.labels[0] as Box).y + 8 - (line.points[line.points.length - 1] as number);
    const moved = done(plan, movePart(plan, ids.pull ?? '', { x: 100, y: 300 - Math.round(rise / 10) * 10 }));
    expect(struckOut(buildScene(moved, before))).toEqual([]);
    expect((buildScene(moved, before).wires.get(line.id) as PlacedWire).points).not.toEqual(line.points);
  });
});
