import type { Point, Side } from './types.ts';

/** Right-angled polylines as flat lists x0, y0, x1, y1 ... in drawing units. */
export type Polyline = readonly number[];

/** Unit step out of a side; none out of a joint that may be left on every side. */
export function outward(side: Side | 'any'): Point {
  if (side === 'any') return { x: 0, y: 0 };
  if (side === 'left') return { x: -1, y: 0 };
  if (side === 'right') return { x: 1, y: 0 };
  return side === 'top' ? { x: 0, y: -1 } : { x: 0, y: 1 };
}

/** Drops repeated points and points in the middle of a straight piece. */
export function simplify(pts: Polyline): number[] {
  const out: number[] = [];
  for (let i = 0; i < pts.length; i += 2) {
    const x = pts[i] as number;
    const y = pts[i + 1] as number;
    let n = out.length;
    if (n >= 2 && out[n - 2] === x && out[n - 1] === y) continue;
    while (n >= 4) {
      const sameX = out[n - 4] === out[n - 2] && out[n - 2] === x;
      const sameY = out[n - 3] === out[n - 1] && out[n - 1] === y;
      if (!sameX && !sameY) break;
      out.length = n -= 2;
      if (out[n - 2] === x && out[n - 1] === y) break;
    }
    if (n >= 2 && out[n - 2] === x && out[n - 1] === y) continue;
    out.push(x, y);
  }
  return out;
}

/** Number of corners of a simplified polyline. */
export function bendCount(pts: Polyline): number {
  return Math.max(0, pts.length / 2 - 2);
}

export function lengthOf(pts: Polyline): number {
  let sum = 0;
  for (let i = 0; i + 3 < pts.length; i += 2)
    sum += Math.abs((pts[i + 2] as number) - (pts[i] as number)) + Math.abs((pts[i + 3] as number) - (pts[i + 1] as number));
  return sum;
}

/** The longest straight piece: its ends and length; the first one when several are equal. */
export function longestPiece(pts: Polyline): { readonly a: Point; readonly b: Point; readonly length: number } {
  let best = 0;
  let at = 0;
  for (let i = 0; i + 3 < pts.length; i += 2) {
    const length = Math.abs((pts[i + 2] as number) - (pts[i] as number)) + Math.abs((pts[i + 3] as number) - (pts[i + 1] as number));
    if (length > best) {
      best = length;
      at = i;
    }
  }
  return {
    a: { x: pts[at] ?? 0, y: pts[at + 1] ?? 0 },
    b: { x: pts[at + 2] ?? pts[at] ?? 0, y: pts[at + 3] ?? pts[at + 1] ?? 0 },
    length: best,
  };
}

/** The corners between the ends (what is stored when a person drags a piece by hand). */
export function cornersOf(pts: Polyline): Point[] {
  const out: Point[] = [];
  for (let i = 2; i + 3 < pts.length; i += 2) out.push({ x: pts[i] as number, y: pts[i + 1] as number });
  return out;
}

/**
 * A polyline through hand-placed bends: every leg right-angled, the first leaving `from` by its side, the last entering
 * `to` by its side. The bends themselves are kept exactly.
 */
export function throughBends(from: Point & { side: Side | 'any' }, to: Point & { side: Side | 'any' }, bends: readonly Point[], stub = 10): number[] {
  const out0 = outward(from.side);
  const out1 = outward(to.side);
  const stops: Point[] = [{ x: from.x + out0.x * stub, y: from.y + out0.y * stub }, ...bends, { x: to.x + out1.x * stub, y: to.y + out1.y * stub }];
  const pts: number[] = [from.x, from.y];
  let at: Point = from;
  let heading = out0;
  stops.forEach((stop, i) => {
    if (stop.x !== at.x && stop.y !== at.y) {
      const lastLeg = i === stops.length - 1;
      // The last leg meets the stub crosswise or in line; other legs first keep their heading, unless that turns back.
      const sideways = lastLeg && (out1.x !== 0 || out1.y !== 0) ? (out1.x === 0) === (heading.x !== 0) : true;
      const ahead = heading.x !== 0 ? (stop.x - at.x) * heading.x > 0 : (stop.y - at.y) * heading.y > 0;
      const alongX = (heading.x !== 0) === (ahead && sideways);
      const corner = alongX ? { x: stop.x, y: at.y } : { x: at.x, y: stop.y };
      pts.push(corner.x, corner.y);
      at = corner;
    }
    if (stop.x !== at.x || stop.y !== at.y) heading = { x: Math.sign(stop.x - at.x), y: Math.sign(stop.y - at.y) };
    pts.push(stop.x, stop.y);
    at = stop;
  });
  pts.push(to.x, to.y);
  return simplify(pts);
}
