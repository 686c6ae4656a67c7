import { COST, LANE, type LaneMap } from './lanes.ts';
import { outward, type Polyline, simplify, throughBends } from './polyline.ts';
import { type LaneSearch, pointsOf } from './search.ts';
import type { Point, Side } from './types.ts';

/** One end of a wire: a pad and the way out of it; `any` = a joint that may be left on every side. */
export interface RouteEnd extends Point {
  readonly side: Side | 'any';
}

/** How hard to look: `quick` keeps the simple shapes (a drag in hand), `full` searches when none is clean. */
export type Effort = 'quick' | 'full';

const FULL_LIMIT = 60_000;
const QUICK_LIMIT = 4_000;
/** How far simple shapes may swing outside the two ends, in lanes. */
const SWING = 8;

/** Does a wire lie (true) or stand (false) where it leaves by this side; null = either. */
const lies = (side: RouteEnd['side']): boolean | null => (side === 'any' ? null : side === 'left' || side === 'right');

/**
 * Routes one wire between two pads over the lanes: right-angled, around parts, beside other wires. Tries the simple
 * shapes (straight, L, Z, U) and takes the cheapest if nothing stands in its way; otherwise searches. Does not mark the
 * map: the caller does, with the result.
 * @param bends corners placed by hand, kept exactly
 * @returns flat polyline from `a` to `b`
 */
export function route(map: LaneMap, search: LaneSearch, a: RouteEnd, b: RouteEnd, bends: readonly Point[] | undefined, effort: Effort): number[] {
  if (bends && bends.length > 0) return throughBends(a, b, bends, LANE);
  const straight = facing(a, b);
  if (straight) return straight;
  const s = stub(a);
  const t = stub(b);
  const simple = bestSimple(map, s, lies(a.side), t, lies(b.side));
  if (simple.clean || (effort === 'quick' && simple.cost < COST.wall)) return finish(a, b, simple.pts);
  const nodes = search.find(map.node(s.x, s.y), lies(a.side), map.node(t.x, t.y), lies(b.side), effort === 'full' ? FULL_LIMIT : QUICK_LIMIT);
  return finish(a, b, nodes ? pointsOf(map, nodes) : simple.pts);
}

/** First node of the lanes outside a pad: one lane out, or the pad itself for a joint. */
function stub(end: RouteEnd): Point {
  const o = outward(end.side);
  return { x: Math.round((end.x + o.x * LANE) / LANE) * LANE, y: Math.round((end.y + o.y * LANE) / LANE) * LANE };
}

/** Two pads that look at each other at short range, in line, need no lane. */
function facing(a: RouteEnd, b: RouteEnd): number[] | null {
  if (a.side === 'any' || b.side === 'any') return null;
  const o = outward(a.side);
  const p = outward(b.side);
  const inLine = o.x !== 0 ? a.y === b.y : a.x === b.x;
  const gap = (b.x - a.x) * o.x + (b.y - a.y) * o.y;
  return inLine && o.x === -p.x && o.y === -p.y && gap > 0 && gap <= 2 * LANE ? [a.x, a.y, b.x, b.y] : null;
}

interface Simple {
  readonly pts: number[];
  readonly cost: number;
  readonly clean: boolean;
}

function bestSimple(map: LaneMap, s: Point, sLies: boolean | null, t: Point, tLies: boolean | null): Simple {
  let best: number[] = [s.x, s.y, t.x, s.y, t.x, t.y];
  let bestCost = Number.POSITIVE_INFINITY;
  let bestPlain = 0;
  const consider = (pts: number[]): void => {
    const line = simplify(pts);
    const { cost, plain } = walk(map, line, sLies, tLies, bestCost);
    if (cost < bestCost) {
      best = line;
      bestCost = cost;
      bestPlain = plain;
    }
  };
  for (const x of lanesBetween(s.x, t.x)) consider([s.x, s.y, x, s.y, x, t.y, t.x, t.y]);
  for (const y of lanesBetween(s.y, t.y)) consider([s.x, s.y, s.x, y, t.x, y, t.x, t.y]);
  return { pts: best, cost: bestCost, clean: bestCost <= bestPlain + COST.cross };
}

/** Lanes to try for the middle piece: the middle first, then outward to the ends, then a swing beyond them. */
function lanesBetween(a: number, b: number): number[] {
  const low = Math.min(a, b);
  const high = Math.max(a, b);
  const middle = Math.round((low + high) / 2 / LANE) * LANE;
  const out = [middle];
  for (let d = LANE; middle - d >= low || middle + d <= high; d += LANE) {
    if (middle - d >= low) out.push(middle - d);
    if (middle + d <= high) out.push(middle + d);
  }
  for (let i = 1; i <= SWING; i++) out.push(high + i * LANE, low - i * LANE);
  return out;
}

/** Cost of a given line over the lanes; `plain` = the part that length and corners alone would cost. Stops past `limit`. */
function walk(map: LaneMap, pts: Polyline, startLies: boolean | null, endLies: boolean | null, limit: number): { cost: number; plain: number } {
  let cost = 0;
  let plain = 0;
  let lying = startLies;
  let node = map.node(pts[0] as number, pts[1] as number);
  for (let i = 2; i < pts.length; i += 2) {
    const goal = map.node(pts[i] as number, pts[i + 1] as number);
    if (goal === node) continue;
    const across = Math.floor(goal / map.cols) === Math.floor(node / map.cols);
    const step = across ? Math.sign(goal - node) : Math.sign(goal - node) * map.cols;
    if (lying === null) lying = across;
    else if (across !== lying) {
      cost += i === 2 ? COST.bend : map.turnCost(node);
      plain += COST.bend;
      lying = across;
    } else if (i > 2) cost += map.passCost(node, lying);
    let inside = false;
    while (node !== goal) {
      if (inside) cost += map.passCost(node, lying);
      cost += map.edgeCost(node, node + step, across);
      plain += COST.step;
      node += step;
      inside = true;
      if (cost > limit) return { cost, plain };
    }
  }
  if (endLies !== null && lying !== null && lying !== endLies) {
    cost += COST.bend;
    plain += COST.bend;
  }
  return { cost, plain };
}

/** Joins the pads on: the line runs from pad to pad, exact at both, also when a pad lies off the raster. */
function finish(a: RouteEnd, b: RouteEnd, pts: readonly number[]): number[] {
  const line = [...pts];
  const n = line.length;
  if (lies(a.side) !== false) line[1] = a.y;
  if (lies(a.side) !== true) line[0] = a.x;
  if (lies(b.side) !== false) line[n - 1] = b.y;
  if (lies(b.side) !== true) line[n - 2] = b.x;
  return simplify([a.x, a.y, ...squared(line), b.x, b.y]);
}

/** Puts a corner wherever two points are not in line. */
function squared(pts: readonly number[]): number[] {
  const out: number[] = [pts[0] as number, pts[1] as number];
  for (let i = 2; i < pts.length; i += 2) {
    const x = pts[i] as number;
    const y = pts[i + 1] as number;
    const px = out[out.length - 2] as number;
    const py = out[out.length - 1] as number;
    if (px !== x && py !== y) out.push(px, y);
    out.push(x, y);
  }
  return out;
}
