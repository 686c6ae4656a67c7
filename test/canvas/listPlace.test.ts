import { describe, expect, it } from 'vitest';
import { LIST, listPlace } from '../../src/canvas/listPlace.ts';

const SIZE = { w: 900, h: 700 };

describe('the list of ends', () => {
  it('hangs right below a terminal in the upper half', () => {
    expect(listPlace({ x: 300, y: 200 }, SIZE, [])).toEqual({ left: 316, width: LIST.w, top: 214, maxHeight: 478 });
  });

  it('goes where it hides none of the terminals it names', () => {
    const right = [{ x: 400, y: 300 }];
    expect(listPlace({ x: 300, y: 200 }, SIZE, right)).toMatchObject({ left: 24, top: 214 });
    const below = [...right, { x: 100, y: 300 }];
    expect(listPlace({ x: 300, y: 200 }, SIZE, below)).toMatchObject({ left: 316, bottom: 514 });
  });

  it('keeps inside the surface and never takes a sliver of it', () => {
    const at = { x: 880, y: 20 };
    const place = listPlace(at, SIZE, [{ x: 700, y: 300 }]);
    expect(place.left).toBeGreaterThanOrEqual(LIST.edge);
    expect(place.left + place.width).toBeLessThanOrEqual(SIZE.w - LIST.edge);
    expect(place.top).toBe(34);
  });
});
