import { describe, expect, it } from 'vitest';
import { toScreen } from '../../src/canvas/camera.ts';
import { zoneCamera, zoneShown } from '../../src/canvas/zoneView.ts';

const VIEW = { w: 360, h: 540 };
const zone = (id: string, x: number, w: number) => ({ id, name: id, box: { x, y: 0, w, h: 500 }, leastW: 80, maxC: 60, bar: { x, y: 480, w, h: 8 } });
const ZONES = [zone('a', 0, 90), zone('b', 90, 210), zone('c', 300, 500)];

describe('one zone on a small screen', () => {
  it.each(ZONES)('$id begins at the left edge with its head at the top, and is the zone that is shown', ({ id, box }) => {
    const camera = zoneCamera(box, VIEW);
    const corner = toScreen(camera, VIEW, box.x, box.y);
    expect(corner.x).toBeCloseTo(4, 6);
    expect(corner.y).toBeCloseTo(0, 6);
    expect(ZONES[zoneShown(ZONES, camera, VIEW)]?.id).toBe(id);
  });

  it('fills the width where its names stay legible, and is never blown up', () => {
    expect(toScreen(zoneCamera(ZONES[2]!.box, VIEW), VIEW, 800, 0).x).toBeCloseTo(356, 6);
    // Whole above the steps, which take 60 px of the height.
    expect(zoneCamera(ZONES[0]!.box, VIEW).zoom).toBe((540 - 60) / 500);
    expect(zoneCamera({ ...ZONES[0]!.box, h: 300 }, VIEW).zoom).toBe(1.25);
    expect(zoneCamera({ ...ZONES[0]!.box, h: 900 }, VIEW).zoom).toBe(0.85);
    expect(zoneCamera({ x: 0, y: 0, w: 5000, h: 500 }, VIEW).zoom).toBe(0.5);
  });
});
