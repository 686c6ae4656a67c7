import { describe, expect, it } from 'vitest';
import { free, seeing } from '../../src/ledger/lookAt.ts';

const ROOM = { w: 390, h: 580 };
const BOX = { x: 1000, y: 200, w: 120, h: 60 };

/** Where the corners of a box come to lie on the surface, pixels. */
function onScreen(box: typeof BOX, c: { x: number; y: number; zoom: number }) {
  const at = (x: number, y: number) => ({ x: (x - c.x) * c.zoom + ROOM.w / 2, y: (y - c.y) * c.zoom + ROOM.h / 2 });
  return { from: at(box.x, box.y), to: at(box.x + box.w, box.y + box.h) };
}

describe('what is looked at', () => {
  it('is left alone where it can be seen', () => {
    const camera = { x: 1000, y: 200, zoom: 1 };
    expect(seeing(BOX, camera, ROOM, ROOM)).toBe(camera);
  });

  it('comes to lie in the strip above a sheet that covers the rest, and beside one that comes from the right', () => {
    for (const over of [
      { x: 0, y: 120 },
      { x: 150, y: 0 },
    ]) {
      const clear = free(ROOM, over);
      // Under the sheet: it counts as not seen.
      const camera = seeing(BOX, { x: 1000, y: 200, zoom: 1 }, ROOM, clear);
      const { from, to } = onScreen(BOX, camera);
      expect(from.x).toBeGreaterThanOrEqual(0);
      expect(from.y).toBeGreaterThanOrEqual(0);
      expect(to.x).toBeLessThanOrEqual(clear.w);
      expect(to.y).toBeLessThanOrEqual(clear.h);
    }
  });

  it('has the whole surface where a sheet leaves nothing of it', () => {
    expect(free(ROOM, { x: 0, y: 0 })).toEqual(ROOM);
    expect(free(ROOM)).toEqual(ROOM);
  });

  it('is large enough to be read after a look at something larger', () => {
    const wide = seeing({ x: 0, y: 0, w: 2000, h: 900 }, { x: 5000, y: 0, zoom: 1 }, ROOM, ROOM);
    expect(wide.zoom).toBeLessThan(0.7);
    expect(seeing(BOX, { ...wide, x: 9000 }, ROOM, ROOM).zoom).toBe(0.7);
  });
});
