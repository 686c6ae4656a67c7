import { describe, expect, it } from 'vitest';
import type { Primitive } from '../../src/drawing/types.ts';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { tagPrimitives } from '../../src/scene/picture.ts';
import { demoPlan } from '../bench/largePlan.ts';

/** Filled corners: three points, in ink. */
const corners = (list: readonly Primitive[]): number => list.filter((p) => p.t === 'poly' && p.pts.length === 6 && p.fill === 'ink').length;
const part = Object.values(demoPlan.parts).find((p) => p.kind === 'step-down')!;
const ground = Object.values(demoPlan.parts).find((p) => p.kind === 'chassis-ground' && p.owner === 'build')!;
const wire = Object.values(demoPlan.wires).find((w) => w.owner === 'build')!;
const numbered: Plan = { ...demoPlan, wires: { ...demoPlan.wires, [wire.id]: { ...wire, number: 7 } } };
const fitted: Plan = {
  ...numbered,
  parts: { ...numbered.parts, [part.id]: { ...part, fitted: true }, [ground.id]: { ...ground, fitted: true } },
  wires: { ...numbered.wires, [wire.id]: { ...numbered.wires[wire.id]!, fitted: true } },
};

describe('what is in the vehicle', () => {
  it('has a filled corner on the drawing, a shape and no colour', () => {
    const before = buildScene(numbered);
    const after = buildScene(fitted);
    for (const id of [part.id, ground.id]) expect(corners(after.parts.get(id)!.primitives) - corners(before.parts.get(id)!.primitives), id).toBe(1);
    expect(corners(tagPrimitives(before.wires.get(wire.id)!))).toBe(0);
    expect(corners(tagPrimitives(after.wires.get(wire.id)!))).toBe(1);
  });

  it('is drawn anew by a tick alone, on the way it had', () => {
    const before = buildScene(numbered);
    const after = buildScene(fitted, before);
    expect(after.wires.get(wire.id)!.fitted).toBe(true);
    expect(after.wires.get(wire.id)!.points).toBe(before.wires.get(wire.id)!.points);
    expect(buildScene(numbered, after).wires.get(wire.id)!.fitted).toBeUndefined();
  });
});
