import { describe, expect, it } from 'vitest';
import { apply } from '../../src/plan/apply.ts';
import { diffPlans, madeDiff } from '../../src/plan/diff.ts';
import { addZone, removeItems, setSetting } from '../../src/plan/edits.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { changeMark, changePrimitives, faded, happenedTo } from '../../src/scene/changes.ts';
import { smallPlan } from '../plan/laws.ts';

const edited = (plan: Plan, edit: Edit): Plan => {
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
};

describe('what changed, as drawn', () => {
  const { plan, ids } = smallPlan();

  it('leaves what changed as it was and takes colour and weight from the rest', () => {
    const now = edited(plan, setSetting(plan, ids.fuse, 'ratingA', 10));
    const diff = madeDiff(diffPlans(plan, now));
    const scene = buildScene(now);
    const drawn = faded(scene, happenedTo(diff));
    expect(drawn.parts.get(ids.fuse)).toBe(scene.parts.get(ids.fuse));
    expect(drawn.wires.get(ids.feedWire)).toMatchObject({ ink: 'faint', stripe: null, tag: '' });
    const inks = drawn.parts.get(ids.resistor)!.primitives.flatMap((p) => ('ink' in p && p.t !== 'text' && p.ink ? [p.ink] : []));
    expect(inks.every((ink) => ['faint', 'paper', 'ground'].includes(ink))).toBe(true);
    // One dashed frame round the fuse, and the mark of a change.
    const over = changePrimitives(scene, buildScene(plan), diff);
    expect(over.filter((p) => p.t === 'poly')).toHaveLength(1);
    expect(over.filter((p) => p.t === 'line' && p.dash)).toHaveLength(1);
  });

  it('draws what was taken out where it stood, also when its zone has moved', () => {
    const now = edited(plan, removeItems(plan, [ids.resistor]));
    const moved = edited(now, addZone(now, { name: 'New', kind: 'dash' }, 0).edit);
    const diff = madeDiff(diffPlans(plan, moved));
    const [was, scene] = [buildScene(plan), buildScene(moved)];
    const zone = plan.parts[ids.resistor]!.zone;
    const by = scene.zones.find((z) => z.id === zone)!.box.x - was.zones.find((z) => z.id === zone)!.box.x;
    expect(by).toBeGreaterThan(0);
    const old = was.parts.get(ids.resistor)!.box;
    const marks = changePrimitives(scene, was, diff).filter((p) => p.t === 'rect' && p.fill === 'ink');
    expect(marks).toContainEqual(expect.objectContaining({ x: old.x + by - 7.5, y: old.y - 7.5 }));
    // The part and its wire.
    expect(marks).toHaveLength(2);
  });

  it('has a mark of its own shape for each, told apart without colour', () => {
    const shapes = (['added', 'changed', 'removed'] as const).map((what) => changeMark(what, 0, 0)[0]!.t);
    expect(new Set(shapes).size).toBe(3);
  });
});
