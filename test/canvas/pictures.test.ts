import { describe, expect, it } from 'vitest';
import { DragRoutes } from '../../src/canvas/dragRoutes.ts';
import { FIRST_LOOK, Pictures } from '../../src/canvas/pictures.ts';
import { apply } from '../../src/plan/apply.ts';
import { moveParts, setWire } from '../../src/plan/edits.ts';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import type { Scene } from '../../src/scene/types.ts';
import { bigPlan } from '../bench/frames/bigPlan.ts';
import { demoPlan } from '../bench/largePlan.ts';

/** Lays the last picture with care, as the page does in its pauses. */
function withCare(pictures: Pictures): Scene {
  const steps = pictures.care();
  for (;;) {
    const step = steps!.next();
    if (!step.done) continue;
    pictures.done(step.value);
    return step.value;
  }
}

const lines = (scene: Scene) => [...scene.wires.values()].map((w) => [w.id, ...w.points].join(' '));

describe('pictures of a plan', () => {
  const { plan, hub } = bigPlan(130, FIRST_LOOK + 20);
  const large: Plan = { ...plan, id: 'large' };

  it('a large plan is first drawn with simple shapes, then as it would be laid from nothing', () => {
    const pictures = new Pictures();
    const first = pictures.next(large, null);
    expect(pictures.isDraft).toBe(true);
    const careful = withCare(pictures);
    expect(pictures.isDraft).toBe(false);
    expect(lines(pictures.next(large, null))).toEqual(lines(careful));
    expect(lines(careful)).toEqual(lines(buildScene(large)));
    expect(lines(first)).not.toEqual(lines(careful));
    expect(first.wires.size).toBe(careful.wires.size);
  });

  it('an edit during the first look ends it too', () => {
    const pictures = new Pictures();
    const part = pictures.next(large, null).parts.get(hub)!;
    const moved = apply(large, moveParts(large, [{ id: hub, zone: large.parts[hub]!.zone, x: large.parts[hub]!.x + 40, y: large.parts[hub]!.y }]));
    if (!moved.ok) throw new Error(moved.reason);
    pictures.next(moved.plan, null);
    expect(pictures.isDraft).toBe(true);
    const scene = withCare(pictures);
    expect(scene.parts.get(hub)!.box.x).toBe(part.box.x + 40);
    expect(lines(scene)).toEqual(lines(buildScene(moved.plan)));
  });

  it('what was dragged keeps its ways at the drop; with care it is as if laid at once', () => {
    const pictures = new Pictures();
    pictures.next(large, null);
    const before = withCare(pictures);
    const at = large.parts[hub]!;
    const moved = apply(large, moveParts(large, [{ id: hub, zone: at.zone, x: at.x + 40, y: at.y + 20 }]));
    if (!moved.ok) throw new Error(moved.reason);
    const drag = new DragRoutes(large, before, new Set([hub])).at(() => ({ dx: 40, dy: 20 }));
    const dropped = pictures.next(moved.plan, null, new Map(drag.map((w) => [w.id, w.points])));
    for (const wire of drag) expect(dropped.wires.get(wire.id)!.points).toBe(wire.points);
    expect(drag.length).toBeGreaterThanOrEqual(20);
    expect(lines(withCare(pictures))).toEqual(lines(buildScene(moved.plan, before)));
    // Back by undo: the picture from before.
    expect(lines(pictures.next(large, null))).toEqual(lines(before));
    expect(pictures.isDraft).toBe(false);
  });

  it('an edit that moves no wire of a large plan needs no second look', () => {
    const pictures = new Pictures();
    pictures.next(large, null);
    withCare(pictures);
    const wire = Object.keys(large.wires)[0]!;
    const longer = apply(large, setWire(large, wire, { lengthM: 3 }));
    if (!longer.ok) throw new Error(longer.reason);
    pictures.next(longer.plan, null);
    expect(pictures.isDraft).toBe(false);
  });

  it('does not depend on the plan that was open before', () => {
    // Same ids at other places: routes kept from the other plan would show.
    const other = apply(
      demoPlan,
      moveParts(
        demoPlan,
        Object.values(demoPlan.parts).map((p) => ({ id: p.id, zone: p.zone, x: p.x + 60, y: p.y + 60 })),
      ),
    );
    if (!other.ok) throw new Error(other.reason);
    const pictures = new Pictures();
    pictures.next({ ...other.plan, id: 'other' }, null);
    expect(lines(pictures.next(demoPlan, null))).toEqual(lines(buildScene(demoPlan)));
    expect(pictures.isDraft).toBe(false);
  });
});
