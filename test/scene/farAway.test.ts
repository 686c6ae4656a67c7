import { describe, expect, it } from 'vitest';
import demo from '../../public/plans/mobile-library-van.plan.json';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { lanesOf } from '../../src/scene/lanesOf.ts';

const DEMO = demo as unknown as Plan;

describe('a plan drawn far too large', () => {
  // A file may say so: as wide as a zone may be, and a part as far down as it may lie.
  const zones = Object.fromEntries(Object.entries(DEMO.zones).map(([id, z]) => [id, { ...z, width: 100_000 }]));
  const lowest = Object.values(DEMO.parts).find((p) => p.kind === 'computer') ?? Object.values(DEMO.parts)[0]!;
  const plan: Plan = { ...DEMO, zones, parts: { ...DEMO.parts, [lowest.id]: { ...lowest, y: 100_000 } } };

  it('is drawn in memory that a page has, every wire at right angles from pad to pad', () => {
    const scene = buildScene(plan);
    expect(lanesOf(scene.zones, scene.parts.values()).size).toBeLessThan(1_500_000);
    for (const { id, points } of scene.wires.values()) {
      const { from, to } = plan.wires[id]!;
      const [a, b] = [from, to].map((end) => scene.parts.get(end.part)!.pads[end.terminal]!);
      expect([points[0], points[1], points.at(-2), points.at(-1)]).toEqual([a!.x, a!.y, b!.x, b!.y]);
      for (let i = 0; i + 3 < points.length; i += 2) expect(points[i] === points[i + 2] || points[i + 1] === points[i + 3]).toBe(true);
    }
  });
});
