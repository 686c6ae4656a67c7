import { describe, expect, it } from 'vitest';
import { inflate, overlaps } from '../../src/drawing/box.ts';
import { movePart, setWire, setZone, turnParts } from '../../src/plan/edits.ts';
import type { Plan } from '../../src/plan/types.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { ZONE } from '../../src/scene/layout.ts';
import type { PlacedPart, Scene } from '../../src/scene/types.ts';
import { ZONES } from '../../src/trade/zones.ts';
import { done, planOf, smallBuild } from './plans.ts';

const part = (scene: Scene, id: string | undefined): PlacedPart => {
  const found = scene.parts.get(id ?? '');
  if (!found) throw new Error(`no part ${id}`);
  return found;
};
const texts = (p: PlacedPart): string[] => p.primitives.flatMap((q) => (q.t === 'text' ? [q.text] : []));

describe('zones', () => {
  const { plan, ids } = smallBuild();
  const scene = buildScene(plan);

  it('stand side by side in the order of the plan, without gaps, one height', () => {
    expect(scene.zones.map((z) => z.name)).toEqual(['Engine bay', 'Behind the radio', 'Under the seat', 'Desk']);
    scene.zones.forEach((z, i) => {
      const next = scene.zones[i + 1];
      if (next) expect(z.box.x + z.box.w).toBe(next.box.x);
      expect(z.box.h).toBe(scene.bounds.h);
    });
  });

  it('are as wide as their parts need, at least 170', () => {
    const byId = new Map(scene.zones.map((z) => [z.id, z.box]));
    for (const p of Object.values(plan.parts)) {
      const zone = byId.get(p.zone);
      const box = part(scene, p.id).box;
      expect(zone && box.x >= zone.x && box.x + box.w <= zone.x + zone.w).toBe(true);
    }
    for (const z of scene.zones) expect(z.box.w).toBeGreaterThanOrEqual(170);
    const wide = buildScene(done(plan, movePart(plan, ids.button ?? '', { x: 600, y: 300 })));
    expect(wide.zones[3]?.box.w).toBeGreaterThan(600);
    const set = buildScene(done(plan, setZone(plan, 'z1', { width: 400 })));
    expect(set.zones[0]?.box.w).toBe(400);
  });

  it("show the planning temperature: the zone kind's, or the person's own", () => {
    expect(scene.zones[1]?.maxC).toBe(ZONES.dash.maxC);
    expect(buildScene(done(plan, setZone(plan, 'z2', { maxC: 55 }))).zones[1]?.maxC).toBe(55);
  });

  it('have their run lengths on the borders between neighbours', () => {
    expect(scene.runs.map((r) => [r.lengthM, r.at.x])).toEqual([
      [1.4, scene.zones[1]?.box.x],
      [2.2, scene.zones[2]?.box.x],
      [2.4, scene.zones[3]?.box.x],
    ]);
  });
});

describe('parts', () => {
  const { plan, ids } = smallBuild();
  const scene = buildScene(plan);

  it("lie at their zone's corner plus their own place", () => {
    const zone = scene.zones[2];
    expect(part(scene, ids.down).box).toMatchObject({ x: (zone?.box.x ?? 0) + 60, y: ZONE.head + 60 });
  });

  it('keep every pad on the raster, also turned', () => {
    for (let turns = 0; turns < 4; turns++) {
      const turned = buildScene(done(plan, turnParts(plan, Object.keys(plan.parts), turns)));
      for (const p of turned.parts.values())
        for (const pad of Object.values(p.pads)) {
          expect(pad.x % 10).toBe(0);
          expect(pad.y % 10).toBe(0);
        }
    }
  });

  it('carry their name: inside blocks, above parts that sit in a wire', () => {
    expect(texts(part(scene, ids.down))).toContain('Step-down');
    const button = part(scene, ids.button);
    const name = button.primitives.find((q) => q.t === 'text' && q.text === 'Next stop');
    expect(name && 'y' in name && name.y < button.box.y).toBe(true);
  });

  it('label their terminals, once each', () => {
    const labels = texts(part(scene, ids.down));
    for (const label of ['in', 'gnd', 'out']) expect(labels.filter((t) => t === label)).toHaveLength(1);
  });

  it('stand on the chassis bar when they are its stud', () => {
    const ground = part(scene, ids.ground);
    const bar = scene.zones[1]?.bar;
    expect(ground.pads['31']?.y).toBeLessThan(bar?.y ?? 0);
    expect(ground.box.y + ground.box.h).toBeGreaterThanOrEqual(bar?.y ?? 0);
  });

  it('show header cells in use as filled', () => {
    const filled = part(scene, ids.pc).primitives.filter((q) => q.t === 'rect' && q.fill === 'ink' && q.w === 10 && q.h === 10);
    expect(filled).toHaveLength(4);
  });
});

describe('wires', () => {
  const { plan, ids, wires } = smallBuild();
  const scene = buildScene(plan);
  const wire = (n: number) => {
    const found = scene.wires.get(wires[n] ?? '');
    if (!found) throw new Error(`no wire ${n}`);
    return found;
  };

  it('run at right angles from pad to pad and through no body', () => {
    for (const w of scene.wires.values()) {
      const row = plan.wires[w.id];
      const from = part(scene, row?.from.part).pads[row?.from.terminal ?? ''];
      expect(w.points.slice(0, 2)).toEqual([from?.x, from?.y]);
      for (let i = 0; i + 3 < w.points.length; i += 2) {
        const [x0, y0, x1, y1] = [w.points[i] as number, w.points[i + 1] as number, w.points[i + 2] as number, w.points[i + 3] as number];
        expect(x0 === x1 || y0 === y1).toBe(true);
        const piece = inflate({ x: Math.min(x0, x1), y: Math.min(y0, y1), w: Math.abs(x1 - x0), h: Math.abs(y1 - y0) }, -0.5);
        for (const p of scene.parts.values())
          if (piece.w > 0 || piece.h > 0) expect(overlaps(inflate(p.box, -1), { ...piece, w: Math.max(piece.w, 0.1), h: Math.max(piece.h, 0.1) })).toBe(false);
      }
    }
  });

  it('look like wires: colour, stripe, thickness by size, number', () => {
    expect(wire(2)).toMatchObject({ ink: 'wire-RD', stripe: 'wire-WH', tag: 'W2' });
    expect(wire(2).width).toBeGreaterThan(wire(4).width);
    expect(wire(6)).toMatchObject({ ink: 'soft', stripe: null, tag: '' });
  });

  it('of the vehicle are thin and grey and carry no number', () => {
    expect(wire(0)).toMatchObject({ owner: 'vehicle', ink: 'vehicle', tag: '' });
    expect(wire(0).width).toBeLessThan(wire(1).width);
  });

  it('keep their drawn width within 1.6 u at 0.22 mm2 and 5 u at 6 mm2', () => {
    const width = (areaMm2: number) => buildScene(done(plan, setWire(plan, wires[1] ?? '', { areaMm2 }))).wires.get(wires[1] ?? '')?.width;
    expect(width(0.22)).toBeCloseTo(1.6);
    expect(width(6)).toBeCloseTo(5);
  });

  it('have a dot where two share a terminal', () => {
    const two = planOf(
      [
        { key: 'a', kind: 'resistor', zone: 'z3', x: 40, y: 40 },
        { key: 'b', kind: 'resistor', zone: 'z3', x: 200, y: 40 },
        { key: 'c', kind: 'resistor', zone: 'z3', x: 200, y: 140 },
      ],
      [
        { from: ['a', '2'], to: ['b', '1'] },
        { from: ['a', '2'], to: ['c', '1'] },
      ],
    );
    const drawn = buildScene(two.plan);
    const pad = part(drawn, two.ids.a).pads['2'];
    expect(drawn.joints).toEqual([{ x: pad?.x, y: pad?.y }]);
    expect(scene.joints).toEqual([]);
  });

  it('pass over earlier ones only where those really are', () => {
    for (const w of scene.wires.values()) for (const c of w.crossings) expect(w.points.some((_, i) => i % 2 === 0 && between(w.points, i, c))).toBe(true);
  });

  it('keep bends placed by hand', () => {
    const x = part(scene, ids.down).box.x - 30;
    const from = part(scene, ids.fuse).pads['2'];
    const to = part(scene, ids.down).pads.in;
    const bends = [
      { x: x, y: from?.y ?? 0 },
      { x: x, y: 600 },
      { x: x + 10, y: 600 },
      { x: x + 10, y: to?.y ?? 0 },
    ];
    const bent = buildScene(done(plan, setWire(plan, wires[2] ?? '', { bends })));
    expect(bent.wires.get(wires[2] ?? '')?.points.slice(2, -2)).toEqual(bends.flatMap((b) => [b.x, b.y]));
  });
});

function between(p: readonly number[], i: number, c: { x: number; y: number }): boolean {
  if (i + 3 >= p.length) return false;
  const [x0, y0, x1, y1] = [p[i] as number, p[i + 1] as number, p[i + 2] as number, p[i + 3] as number];
  return c.x >= Math.min(x0, x1) && c.x <= Math.max(x0, x1) && c.y >= Math.min(y0, y1) && c.y <= Math.max(y0, y1);
}

describe('building again', () => {
  const { plan, ids, wires } = smallBuild();
  const scene = buildScene(plan);

  it('is the same picture every time', () => {
    const again = buildScene(structuredClone(plan));
    expect([...again.wires.values()]).toEqual([...scene.wires.values()]);
    expect([...again.parts.values()]).toEqual([...scene.parts.values()]);
  });

  it('keeps the very objects of what did not change', () => {
    const same = buildScene({ ...plan, title: 'Other' }, scene);
    for (const [id, w] of scene.wires) expect(same.wires.get(id)).toBe(w);
    for (const [id, p] of scene.parts) expect(same.parts.get(id)).toBe(p);
  });

  it('routes only wires on the moved part and wires in its way', () => {
    const moved = buildScene(done(plan, movePart(plan, ids.button ?? '', { x: 60, y: 360 })), scene);
    expect(moved.wires.get(wires[6] ?? '')?.points).not.toEqual(scene.wires.get(wires[6] ?? '')?.points);
    for (const n of [0, 1, 2, 3, 4, 5]) expect(moved.wires.get(wires[n] ?? '')?.points).toBe(scene.wires.get(wires[n] ?? '')?.points);
  });

  it('takes wires out of the way of a part put on them', () => {
    const lying = scene.wires.get(wires[3] ?? '');
    const [x, y] = middleOf(lying?.points ?? []);
    const zone = [...scene.zones].reverse().find((z) => x >= z.box.x);
    const onIt: Plan = done(plan, movePart(plan, ids.button ?? '', { zone: zone?.id ?? 'z2', x: x - (zone?.box.x ?? 0) - 30, y: y - ZONE.head - 10 }));
    const after = buildScene(onIt, scene);
    const body = part(after, ids.button).box;
    const points = after.wires.get(wires[3] ?? '')?.points ?? [];
    for (let i = 0; i + 3 < points.length; i += 2) {
      const piece = {
        x: Math.min(points[i] as number, points[i + 2] as number) - 0.5,
        y: Math.min(points[i + 1] as number, points[i + 3] as number) - 0.5,
        w: Math.abs((points[i] as number) - (points[i + 2] as number)) + 1,
        h: Math.abs((points[i + 1] as number) - (points[i + 3] as number)) + 1,
      };
      expect(overlaps(body, piece)).toBe(false);
    }
  });

  it('carries routes along when a zone to the left grows', () => {
    const wider = buildScene(done(plan, setZone(plan, 'z1', { width: 300 })), scene);
    const by = (wider.zones[2]?.box.x ?? 0) - (scene.zones[2]?.box.x ?? 0);
    expect(by).toBeGreaterThan(0);
    const before = scene.wires.get(wires[4] ?? '')?.points ?? [];
    expect(wider.wires.get(wires[4] ?? '')?.points).toEqual(before.map((v, i) => (i % 2 === 0 ? v + by : v)));
  });

  it('restyles a wire without routing it', () => {
    const red = buildScene(done(plan, setWire(plan, wires[6] ?? '', { colour: 'BU', areaMm2: 0.5 })), scene);
    expect(red.wires.get(wires[6] ?? '')).toMatchObject({ ink: 'wire-BU', points: scene.wires.get(wires[6] ?? '')?.points });
  });
});

/** Middle of the longest lying piece. */
function middleOf(p: readonly number[]): [number, number] {
  let best: [number, number] = [0, 0];
  let most = 0;
  for (let i = 0; i + 3 < p.length; i += 2) {
    const length = Math.abs((p[i + 2] as number) - (p[i] as number));
    if (length > most) {
      most = length;
      best = [Math.round(((p[i] as number) + (p[i + 2] as number)) / 20) * 10, p[i + 1] as number];
    }
  }
  return best;
}
