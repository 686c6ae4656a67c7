import type { Point } from './types.ts';

/** One straight piece standing or lying; `n` = which polyline it belongs to. */
interface Piece {
  readonly n: number;
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

const STRIP = 50;

/** A place where a line passes over another one. */
export interface Crossing extends Point {
  /** Number of the line below. */
  readonly under: number;
}

/**
 * Where each polyline passes over an earlier one, strictly inside both pieces (ends that touch are joints, not
 * crossings).
 * @param lines right-angled polylines x0, y0, x1, y1 ... in drawing order
 * @param among numbers of lines: only crossings in which one of them takes part are looked for; absent = all
 * @returns for each line its crossings in order along x, then y
 */
export function crossings(lines: readonly (readonly number[])[], among?: ReadonlySet<number>): Crossing[][] {
  const upright = new Map<number, Piece[]>();
  const wanted = new Map<number, Piece[]>();
  const lying: Piece[] = [];
  lines.forEach((pts, n) => {
    for (let i = 0; i + 3 < pts.length; i += 2) {
      const [x0, y0, x1, y1] = [pts[i] as number, pts[i + 1] as number, pts[i + 2] as number, pts[i + 3] as number];
      if (x0 === x1 && y0 !== y1) {
        const piece = { n, at: x0, from: Math.min(y0, y1), to: Math.max(y0, y1) };
        intoStrip(upright, piece);
        if (among?.has(n)) intoStrip(wanted, piece);
      } else if (y0 === y1 && x0 !== x1) lying.push({ n, at: y0, from: Math.min(x0, x1), to: Math.max(x0, x1) });
    }
  });
  const found: Crossing[][] = lines.map(() => []);
  for (const h of lying) {
    const strips = !among || among.has(h.n) ? upright : wanted;
    const last = Math.floor(h.to / STRIP);
    for (let strip = Math.floor(h.from / STRIP); strip <= last; strip++) {
      const list = strips.get(strip);
      if (!list) continue;
      for (const v of list) {
        if (v.n === h.n || v.at <= h.from || v.at >= h.to || h.at <= v.from || h.at >= v.to) continue;
        (found[Math.max(v.n, h.n)] as Crossing[]).push({ x: v.at, y: h.at, under: Math.min(v.n, h.n) });
      }
    }
  }
  for (const list of found) list.sort(alongX);
  return found;
}

export function alongX(a: Point, b: Point): number {
  return a.x - b.x || a.y - b.y;
}

function intoStrip(strips: Map<number, Piece[]>, piece: Piece): void {
  const strip = Math.floor(piece.at / STRIP);
  const list = strips.get(strip);
  if (list) list.push(piece);
  else strips.set(strip, [piece]);
}
