import { describe, expect, it } from 'vitest';
import { apply, invert } from '../../src/plan/apply.ts';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import type { PlacedZone } from '../../src/scene/types.ts';
import { widthEdit, widthNear } from '../../src/scene/zoneWidth.ts';
import { done, smallBuild } from './plans.ts';

const zoneOf = (plan: Plan, id: string): PlacedZone => buildScene(plan).zones.find((z) => z.id === id)!;

describe('the width of a zone', () => {
  const { plan, ids } = smallBuild();
  const zone = zoneOf(plan, 'z2');

  it('goes in whole steps and never below what the zone holds', () => {
    expect(zone.box.w).toBe(zone.leastW);
    expect(widthNear(zone, zone.leastW + 29)).toBe(Math.round((zone.leastW + 29) / 20) * 20);
    expect(widthNear(zone, 3)).toBe(zone.leastW);
    expect(widthNear(zone, 9e9)).toBe(100_000);
    // The fuse stands at 200 and is 60 wide; 40 more for wires: 300 is the least, whatever is asked for.
    const narrow = zoneOf(done(plan, widthEdit(plan, zone, 10)), 'z2');
    expect(narrow.box.w).toBe(zone.leastW);
    expect(narrow.leastW).toBeGreaterThanOrEqual(plan.parts[ids.fuse ?? '']!.x + 60 + 40);
  });

  it('is drawn as it was dragged; what stands right of it moves along, what stands left stays', () => {
    const wide = done(plan, widthEdit(plan, zone, zone.box.w + 120));
    const [before, after] = [buildScene(plan), buildScene(wide)];
    expect(after.zones.map((z) => z.box.w - before.zones.find((b) => b.id === z.id)!.box.w)).toEqual([0, 120, 0, 0]);
    expect(after.zones.map((z) => z.box.x - before.zones.find((b) => b.id === z.id)!.box.x)).toEqual([0, 0, 120, 120]);
    expect(wide.parts).toEqual(plan.parts);
  });

  it('is one edit that goes back whole, and says which way', () => {
    const edit = widthEdit(plan, zone, zone.box.w + 120);
    expect(edit.label).toBe(`Make ${zone.name} wider`);
    const wide = done(plan, edit);
    const back = apply(wide, invert(edit));
    expect(back.ok && back.plan).toEqual(plan);
    expect(widthEdit(wide, zoneOf(wide, 'z2'), zone.box.w).label).toBe(`Make ${zone.name} narrower`);
    expect(done(wide, widthEdit(wide, zoneOf(wide, 'z2'), null)).zones.z2?.width).toBeNull();
  });
});
