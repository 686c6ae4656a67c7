import { describe, expect, it } from 'vitest';
import { FIRST_LOOK, Pictures } from '../../src/canvas/pictures.ts';
import { apply } from '../../src/plan/apply.ts';
import { moveParts } from '../../src/plan/edits.ts';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import type { Scene } from '../../src/scene/types.ts';
import { bigPlan } from '../bench/frames/bigPlan.ts';
import { demoPlan } from '../bench/largePlan.ts';

const lines = (scene: Scene) => [...scene.wires.values()].map((w) => [w.id, ...w.points].join(' '));

describe('pictures of a plan', () => {
  const { plan, hub } = bigPlan(130, FIRST_LOOK + 20);
  const large: Plan = { ...plan, id: 'large' };

  it('a large plan is first drawn with simple shapes, then as it would be laid from nothing', () => {
    const pictures = new Pictures();
    const first = pictures.next(large, null);
    expect(pictures.isDraft).toBe(true);
    const careful = pictures.next(large, null);
    expect(pictures.isDraft).toBe(false);
    expect(lines(careful)).toEqual(lines(buildScene(large)));
    expect(lines(first)).not.toEqual(lines(careful));
    expect(first.wires.size).toBe(careful.wires.size);
  });

  it('an edit during the first look ends it too', () => {
    const pictures = new Pictures();
    const part = pictures.next(large, null).parts.get(hub)!;
    const moved = apply(large, moveParts(large, [{ id: hub, zone: large.parts[hub]!.zone, x: large.parts[hub]!.x + 40, y: large.parts[hub]!.y }]));
    if (!moved.ok) throw new Error(moved.reason);
    const scene = pictures.next(moved.plan, null);
    expect(pictures.isDraft).toBe(false);
    expect(scene.parts.get(hub)!.box.x).toBe(part.box.x + 40);
    expect(lines(scene)).toEqual(lines(buildScene(moved.plan)));
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
