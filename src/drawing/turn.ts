import type { Pad, Point, Primitive, Side } from './types.ts';

export type Turn = 0 | 1 | 2 | 3;

/** Sizes are rounded up to the raster before turning, so that pads stay on it. */
const up = (v: number) => Math.ceil(v / 10) * 10;

const SIDES: readonly Side[] = ['top', 'right', 'bottom', 'left'];

/** The side after so many quarter turns clockwise. */
export function turnSide(side: Side, turn: Turn): Side {
  return SIDES[(SIDES.indexOf(side) + turn) % 4] as Side;
}

/** A point of a w × h symbol after quarter turns clockwise; the turned symbol's top left corner is 0,0 again. */
export function turnPoint(x: number, y: number, w: number, h: number, turn: Turn): Point {
  if (turn === 1) return { x: up(h) - y, y: x };
  if (turn === 2) return { x: up(w) - x, y: up(h) - y };
  if (turn === 3) return { x: y, y: up(w) - x };
  return { x, y };
}

/** Body size after turning. */
export function turnSize(w: number, h: number, turn: Turn): { readonly w: number; readonly h: number } {
  return turn % 2 === 0 ? { w, h } : { w: h, h: w };
}

export function turnPad(pad: Pad, w: number, h: number, turn: Turn): Pad {
  const at = turnPoint(pad.x, pad.y, w, h, turn);
  return { x: at.x, y: at.y, side: turnSide(pad.side, turn) };
}

function movePoints(pts: readonly number[], w: number, h: number, turn: Turn, dx: number, dy: number): number[] {
  const out: number[] = [];
  for (let i = 0; i < pts.length; i += 2) {
    const p = turnPoint(pts[i] as number, pts[i + 1] as number, w, h, turn);
    out.push(p.x + dx, p.y + dy);
  }
  return out;
}

/** Share of the size by which the middle of a capital lies above the baseline. */
const CAP_MIDDLE = 0.36;

function moveText(p: Primitive & { t: 'text' }, w: number, h: number, turn: Turn, dx: number, dy: number): Primitive {
  // Text stays upright: its middle turns with the part, not its baseline.
  const lift = p.size * CAP_MIDDLE;
  const at = turnPoint(p.x, p.y - lift, w, h, turn);
  const anchor = p.anchor ?? 'start';
  const flipped = anchor === 'start' ? 'end' : anchor === 'end' ? 'start' : 'middle';
  return { ...p, x: at.x + dx, y: at.y + lift + dy, anchor: turn === 2 ? flipped : turn === 0 ? anchor : 'middle' };
}

/** A primitive of a w × h symbol turned and moved to dx, dy. */
export function placePrimitive(p: Primitive, w: number, h: number, turn: Turn, dx: number, dy: number): Primitive {
  switch (p.t) {
    case 'line':
    case 'poly':
      return { ...p, pts: movePoints(p.pts, w, h, turn, dx, dy) };
    case 'rect': {
      const a = turnPoint(p.x, p.y, w, h, turn);
      const b = turnPoint(p.x + p.w, p.y + p.h, w, h, turn);
      return { ...p, x: Math.min(a.x, b.x) + dx, y: Math.min(a.y, b.y) + dy, w: Math.abs(a.x - b.x), h: Math.abs(a.y - b.y) };
    }
    case 'circle': {
      const c = turnPoint(p.x, p.y, w, h, turn);
      return { ...p, x: c.x + dx, y: c.y + dy };
    }
    case 'arc': {
      const c = turnPoint(p.x, p.y, w, h, turn);
      return { ...p, x: c.x + dx, y: c.y + dy, from: p.from + 90 * turn, to: p.to + 90 * turn };
    }
    case 'text':
      return moveText(p, w, h, turn, dx, dy);
  }
}
