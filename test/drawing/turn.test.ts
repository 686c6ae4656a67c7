import { describe, expect, it } from 'vitest';
import { placePrimitive, turnPad, turnPoint, turnSide, turnSize } from '../../src/drawing/turn.ts';

describe('turning symbols', () => {
  it('goes clockwise: what was left is on top after one turn', () => {
    expect(turnSide('left', 1)).toBe('top');
    expect(turnSide('top', 1)).toBe('right');
    expect(turnSide('right', 3)).toBe('top');
    expect(turnSide('bottom', 2)).toBe('top');
  });

  it('keeps a point inside the turned body', () => {
    // 60 x 20 body, pad at the left end in the middle.
    expect(turnPoint(0, 10, 60, 20, 1)).toEqual({ x: 10, y: 0 });
    expect(turnPoint(0, 10, 60, 20, 2)).toEqual({ x: 60, y: 10 });
    expect(turnPoint(0, 10, 60, 20, 3)).toEqual({ x: 10, y: 60 });
    expect(turnSize(60, 20, 1)).toEqual({ w: 20, h: 60 });
  });

  it('four quarter turns of a pad are none', () => {
    let pad = { x: 20, y: 0, side: 'top' as const } as ReturnType<typeof turnPad>;
    let [w, h] = [120, 60];
    for (let i = 0; i < 4; i++) {
      pad = turnPad(pad, w, h, 1);
      [w, h] = [h, w];
    }
    expect(pad).toEqual({ x: 20, y: 0, side: 'top' });
  });

  it('keeps pads on the raster when a body is not a multiple of it', () => {
    const pad = turnPad({ x: 0, y: 10, side: 'left' }, 60, 25, 1);
    expect(pad.x % 10).toBe(0);
    expect(pad.y % 10).toBe(0);
  });

  it('leaves text upright, about its own middle, and changes the anchor sides when upside down', () => {
    const text = { t: 'text', x: 6, y: 13, text: '87', size: 9, ink: 'soft', anchor: 'start' } as const;
    const half = placePrimitive(text, 120, 60, 2, 0, 0);
    expect(half).toMatchObject({ t: 'text', x: 114, anchor: 'end', text: '87' });
    const quarter = placePrimitive(text, 120, 60, 1, 100, 0);
    expect(quarter).toMatchObject({ anchor: 'middle' });
  });

  it('turns a rectangle into one with width and height changed over', () => {
    expect(placePrimitive({ t: 'rect', x: 14, y: 5, w: 32, h: 10 }, 60, 20, 1, 0, 0)).toMatchObject({ x: 5, y: 14, w: 10, h: 32 });
  });

  it('turns arcs with the part', () => {
    expect(placePrimitive({ t: 'arc', x: 10, y: 10, r: 4, from: 180, to: 360, ink: 'ink', w: 1 }, 60, 20, 1, 0, 0)).toMatchObject({ from: 270, to: 450 });
  });
});
