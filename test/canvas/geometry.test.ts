import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pushPiece } from '../../src/canvas/bendWire.ts';
import { firstLook, fitted, moveOf, resized, toScreen, toWorld, visibleBox, zoomedAt } from '../../src/canvas/camera.ts';
import { nearestOn, SceneIndex } from '../../src/canvas/sceneIndex.ts';
import { buildScene } from '../../src/scene/buildScene.ts';
import { smallBuild } from '../scene/plans.ts';

const camera = fc.record({
  x: fc.integer({ min: -500, max: 500 }),
  y: fc.integer({ min: -500, max: 500 }),
  zoom: fc.double({ min: 0.2, max: 4, noNaN: true }),
});
const view = { w: 800, h: 600 };

describe('camera', () => {
  it('goes to the screen and back', () => {
    fc.assert(
      fc.property(camera, fc.integer(), fc.integer(), (c, x, y) => {
        const s = toScreen(c, view, x % 5000, y % 5000);
        const w = toWorld(c, view, s.x, s.y);
        expect(w.x).toBeCloseTo(x % 5000, 6);
        expect(w.y).toBeCloseTo(y % 5000, 6);
      }),
    );
  });

  it('zooms about the pointer: what is under it stays there', () => {
    fc.assert(
      fc.property(camera, fc.double({ min: 0.8, max: 1.25, noNaN: true }), (c, factor) => {
        const before = toWorld(c, view, 123, 456);
        const after = toWorld(zoomedAt(c, view, 123, 456, factor), view, 123, 456);
        expect(after.x).toBeCloseTo(before.x, 6);
        expect(after.y).toBeCloseTo(before.y, 6);
      }),
    );
  });

  it('moves old pixels to where a new drawing would put them', () => {
    fc.assert(
      fc.property(camera, camera, (drawn, now) => {
        const margin = 320;
        const p = { x: 77, y: -33 };
        // Where the point lies on the canvas that was drawn, which begins a margin left of and above the view.
        const onCanvas = { x: toScreen(drawn, view, p.x, p.y).x + margin, y: toScreen(drawn, view, p.x, p.y).y + margin };
        const { k, x, y } = moveOf(drawn, now, view, margin);
        const shown = { x: -margin + x + k * onCanvas.x, y: -margin + y + k * onCanvas.y };
        const wanted = toScreen(now, view, p.x, p.y);
        expect(shown.x).toBeCloseTo(wanted.x, 4);
        expect(shown.y).toBeCloseTo(wanted.y, 4);
      }),
    );
  });

  it('stands still at its top left corner when the surface becomes larger or smaller', () => {
    fc.assert(
      fc.property(camera, fc.integer({ min: 50, max: 2000 }), fc.integer({ min: 50, max: 2000 }), (before, w, h) => {
        const now = resized(before, view, { w, h });
        const p = toWorld(before, view, 30, 40);
        const there = toScreen(now, { w, h }, p.x, p.y);
        expect(there.x).toBeCloseTo(30, 4);
        expect(there.y).toBeCloseTo(40, 4);
        expect(now.zoom).toBe(before.zoom);
      }),
    );
  });

  it('fits a whole box into the view', () => {
    const box = { x: 0, y: 0, w: 1400, h: 740 };
    const seen = visibleBox(fitted(box, view), view);
    expect(seen.x).toBeLessThanOrEqual(0);
    expect(seen.x + seen.w).toBeGreaterThanOrEqual(1400);
    expect(seen.y + seen.h).toBeGreaterThanOrEqual(740);
  });

  it('opens a wide plan on a small screen legibly, from its left', () => {
    const phone = { w: 390, h: 600 };
    const look = firstLook({ x: 0, y: 0, w: 1400, h: 740 }, phone);
    expect(look.zoom).toBeGreaterThan(0.5);
    expect(visibleBox(look, phone).x).toBeCloseTo(0);
  });
});

describe('bending by hand', () => {
  const line = [0, 0, 100, 0, 100, 80, 200, 80];
  it('moves a middle piece and stretches its neighbours', () => {
    expect(pushPiece(line, 1, 30, 999)).toEqual([0, 0, 130, 0, 130, 80, 200, 80]);
  });
  it('keeps a stub where an end piece leaves its pad', () => {
    expect(pushPiece(line, 0, 0, 40)).toEqual([0, 0, 10, 0, 10, 40, 100, 40, 100, 80, 200, 80]);
    expect(pushPiece(line, 2, 0, 40)).toEqual([0, 0, 100, 0, 100, 120, 190, 120, 190, 80, 200, 80]);
  });
  it('bends a straight wire out and back', () => {
    expect(pushPiece([0, 0, 100, 0], 0, 0, 50)).toEqual([0, 0, 10, 0, 10, 50, 90, 50, 90, 0, 100, 0]);
  });
});

describe('hits', () => {
  const { plan, ids, wires } = smallBuild();
  const scene = buildScene(plan);
  const index = new SceneIndex(scene);
  const box = scene.parts.get(ids.down ?? '')?.box ?? { x: 0, y: 0, w: 0, h: 0 };

  it('a terminal before its part, a part before a wire', () => {
    const pad = scene.parts.get(ids.down ?? '')?.pads.in ?? { x: 0, y: 0 };
    expect(index.hit(pad.x + 3, pad.y + 2, 9)).toEqual({ kind: 'pad', pad: { part: ids.down, terminal: 'in' } });
    expect(index.hit(box.x + box.w / 2, box.y + 8, 9)).toEqual({ kind: 'part', id: ids.down });
  });

  it('a wire on and near it, nothing away from everything', () => {
    const p = scene.wires.get(wires[3] ?? '')?.points ?? [];
    const at = { x: ((p[2] ?? 0) + (p[4] ?? 0)) / 2, y: ((p[3] ?? 0) + (p[5] ?? 0)) / 2 };
    expect(index.hit(at.x + 2, at.y + 2, 9)).toMatchObject({ kind: 'wire' });
    expect(index.hit(-500, -500, 9)).toBeNull();
  });

  it('a box takes what lies wholly in it', () => {
    const found = index.inside({ x: box.x - 5, y: box.y - 5, w: box.w + 10, h: box.h + 10 });
    expect(found.parts).toEqual([ids.down]);
    const all = index.inside({ x: -100, y: -100, w: 9000, h: 9000 });
    expect(all.parts).toHaveLength(scene.parts.size);
    expect(all.wires).toHaveLength(scene.wires.size);
    expect(index.inside({ x: box.x + 5, y: box.y - 5, w: box.w, h: box.h + 10 }).parts).toEqual([]);
  });

  it('the nearest point on a wire', () => {
    expect(nearestOn([0, 0, 100, 0, 100, 80], 60, 5)).toMatchObject({ x: 60, y: 0, lying: true, along: 60 });
    expect(nearestOn([0, 0, 100, 0, 100, 80], 104, 50)).toMatchObject({ x: 100, y: 50, lying: false, along: 150 });
  });
});
