import { describe, expect, it } from 'vitest';
import { apply, invert } from '../../src/plan/apply.ts';
import { addPart, moveZone, setWire } from '../../src/plan/edits.ts';
import type { Plan } from '../../src/plan/types.ts';
import { bendsInZones, bendsOnDrawing } from '../../src/scene/bends.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import type { PlacedZone, Scene } from '../../src/scene/types.ts';
import { widthEdit } from '../../src/scene/zoneWidth.ts';
import { createApp } from '../../src/state/store.ts';
import { done, smallBuild } from './plans.ts';

const zoneOf = (scene: Scene, id: string): PlacedZone => scene.zones.find((z) => z.id === id)!;

/** The third wire goes from the fuse in z2 to the converter in z3; bent by hand in both. */
function bentBuild() {
  const { plan, wires } = smallBuild();
  const id = wires[2] ?? '';
  const scene = buildScene(plan);
  const [left, right] = [zoneOf(scene, 'z2').box, zoneOf(scene, 'z3').box];
  const points = [
    { x: left.x + left.w - 30, y: 400 },
    { x: right.x + 20, y: 400 },
  ];
  const bent = done(plan, setWire(plan, id, { bends: bendsInZones(points, scene.zones) }));
  const drawn = (p: Plan) => {
    const now = buildScene(p);
    return bendsOnDrawing(p.wires[id]?.bends ?? [], now.zones).map(({ x, y }, i) => ({ in: x - zoneOf(now, i === 0 ? 'z2' : 'z3').box.x, y }));
  };
  return { plan: bent, id, points, drawn, scene, places: [left.w - 30, 20] };
}

describe('bends put by hand', () => {
  it('know the zone they lie in, beside the outermost the nearest', () => {
    const { scene } = bentBuild();
    const end = scene.bounds.w;
    expect(
      bendsInZones(
        [
          { x: -10, y: 5 },
          { x: zoneOf(scene, 'z2').box.x, y: 6 },
          { x: end + 10, y: 7 },
        ],
        scene.zones,
      ),
    ).toEqual([
      { x: -10, y: 5, zone: 'z1' },
      { x: 0, y: 6, zone: 'z2' },
      { x: zoneOf(scene, 'z4').box.w + 10, y: 7, zone: 'z4' },
    ]);
  });

  it('stay in their zones when one is moved in the row, when one is pulled wider and when one grows by itself', () => {
    const { plan, drawn, places } = bentBuild();
    const before = buildScene(plan);
    const z1 = zoneOf(before, 'z1');
    const edits = {
      moved: moveZone(plan, 'z1', 2),
      swapped: moveZone(plan, 'z3', 0),
      wider: widthEdit(plan, z1, z1.box.w + 120),
      grown: addPart(plan, { kind: 'resistor', zone: 'z2', x: 700, y: 300 }).edit,
    };
    for (const edit of Object.values(edits)) {
      const after = done(plan, edit);
      expect(buildScene(after).zones.map((z) => z.box.x)).not.toEqual(before.zones.map((z) => z.box.x));
      expect(drawn(after).map((b) => b.in)).toEqual(places);
      const back = apply(after, invert(edit));
      expect(back.ok && back.plan).toEqual(plan);
    }
  });

  it('are drawn there at once, as they are when the plan is opened again', () => {
    const { plan, id, scene } = bentBuild();
    const before = buildScene(plan, scene);
    for (const edit of [moveZone(plan, 'z1', 1), widthEdit(plan, zoneOf(before, 'z2'), 500)]) {
      const after = done(plan, edit);
      expect(buildScene(after, before).wires.get(id)?.points).toEqual(buildScene(after).wires.get(id)?.points);
    }
    expect(buildScene({ ...plan, title: 'Other' }, before).wires.get(id)?.points).toBe(before.wires.get(id)?.points);
  });

  it('stand at the edge while their strip is gone, and come back with it', () => {
    const { plan, id } = bentBuild();
    const zone = zoneOf(buildScene(plan), 'z2');
    const wide = done(plan, widthEdit(plan, zone, zone.box.w + 200));
    const out = done(wide, setWire(wide, id, { bends: [{ x: zone.box.w + 150, y: 400, zone: 'z2' }] }));
    const narrow = done(out, widthEdit(out, zoneOf(buildScene(out), 'z2'), null));
    const xs = (p: Plan) => bendsOnDrawing(p.wires[id]?.bends ?? [], buildScene(p).zones).map((b) => b.x - zone.box.x);
    expect([xs(out), xs(narrow)]).toEqual([[zone.box.w + 150], [zone.box.w]]);
  });

  it('of an older edition are tied to their zones by the next edit, in the same step of undo', () => {
    const { plan, id, points, drawn, places } = bentBuild();
    const old = done(plan, setWire(plan, id, { bends: points }));
    const app = createApp();
    app.getState().load(old);
    app.getState().setScene(buildScene(old));
    expect(app.getState().apply(addPart(old, { kind: 'resistor', zone: 'z1', x: 500, y: 300 }).edit).ok).toBe(true);
    expect(app.getState().past).toHaveLength(1);
    expect(app.getState().past[0]?.label).toMatch(/^Add /);
    expect(drawn(app.getState().plan as Plan).map((b) => b.in)).toEqual(places);
    app.getState().undo();
    expect(app.getState().plan).toEqual(old);
  });
});
