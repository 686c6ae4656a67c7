import type { Point } from './types.ts';

/** One straight piece standing or lying; `n` = which polyline it belongs to. */
interface Piece {
  readonly n: number;
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

const STRIP = 50;

/**
 * Where each polyline passes over an earlier one, strictly inside both pieces (ends that touch are joints, not
 * crossings).
 * @param lines right-angled polylines x0, y0, x1, y1 ... in drawing order
 * @param only numbers of the lines wanted as the upper one; absent = all
 * @returns for each line its crossings in order along x, then y
 */
export function crossings(lines: readonly (readonly number[])[], only?: ReadonlySet<number>): Point[][] {
  const upright = new Map<number, Piece[]>();
  const lying: Piece[] = [];
  lines.forEach((pts, n) => {
    for (let i = 0; i + 3 < pts.length; i += 2) {
      const [x0, y0, x1, y1] = [pts[i] as number, pts[i + 1] as number, pts[i + 2] as number, pts[i + 3] as number];
      if (x0 === x1 && y0 !== y1) {
        const strip = Math.floor(x0 / STRIP);
        const piece = { n, at: x0, from: Math.min(y0, y1), to: Math.max(y0, y1) };
        const list = upright.get(strip);
        if (list) list.push(piece);
        else upright.set(strip, [piece]);
      } else if (y0 === y1 && x0 !== x1) lying.push({ n, at: y0, from: Math.min(x0, x1), to: Math.max(x0, x1) });
    }
  });
  const found: Point[][] = lines.map(() => []);
  for (const h of lying) {
    const last = Math.floor(h.to / STRIP);
    for (let strip = Math.floor(h.from / STRIP); strip <= last; strip++) {
      for (const v of upright.get(strip) ?? []) {
        if (v.n === h.n || v.at <= h.from || v.at >= h.to || h.at <= v.from || h.at >= v.to) continue;
        const upper = Math.max(v.n, h.n);
        if (!only || only.has(upper)) (found[upper] as Point[]).push({ x: v.at, y: h.at });
      }
    }
  }
  for (const list of found) list.sort((a, b) => a.x - b.x || a.y - b.y);
  return found;
}
