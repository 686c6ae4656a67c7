import { COST, LANE, type LaneMap } from './lanes.ts';
import { bendCount, lengthOf, outward, type Polyline, simplify, throughBends } from './polyline.ts';
import { type LaneSearch, pointsOf } from './search.ts';
import type { Point, Side } from './types.ts';

/** One end of a wire: a pad and the way out of it; `any` = a joint that may be left on every side. */
export interface RouteEnd extends Point {
  readonly side: Side | 'any';
}

/** How hard to look: `quick` keeps the simple shapes (a drag in hand), `full` searches when none is clean. */
export type Effort = 'quick' | 'full';

/** States to settle at most in a full search. */
const FULL_LIMIT = 60_000;
/** A quick search may end up to so many times as dear as the best way. */
const HASTE = 2;
/** A simple shape may cost this much more than length and corners (a crossing, a strip before a terminal) and still do. */
const CLEAN = 110;
/** Lanes between two ends that a quick look tries. */
const QUICK_LANES = 10;
/** Lanes between two ends that a full look tries: all of them on a drawing of any common size. */
const FULL_LANES = 600;
/** How far simple shapes may swing outside the two ends, in lanes. */
const SWING = 8;

/** Does a wire lie (true) or stand (false) where it leaves by this side; null = either. */
const lies = (side: RouteEnd['side']): boolean | null => (side === 'any' ? null : side === 'left' || side === 'right');

export interface RouteOptions {
  /** Corners placed by hand, kept exactly. */
  readonly bends?: readonly Point[] | undefined;
  readonly effort?: Effort;
  /** The line before an end was moved: stretching it may do (quick only). */
  readonly before?: Polyline | undefined;
  /** Most states a quick search may settle; 0 = no search. */
  readonly limit?: number;
  /** A full search may end up to so many times as dear as the best way, and is sooner done; 1 = the best way. */
  readonly haste?: number;
}

/**
 * Routes one wire between two pads over the lanes: right-angled, around parts, beside other wires. Tries the simple
 * shapes (straight, L, Z, U) and takes the cheapest if nothing stands in its way; otherwise searches. Does not mark the
 * map: the caller does, with the result.
 * @returns flat polyline from `a` to `b`
 */
export function route(
  map: LaneMap,
  search: LaneSearch,
  a: RouteEnd,
  b: RouteEnd,
  { bends, effort = 'full', before, limit = 1500, haste = 1 }: RouteOptions = {},
): number[] {
  if (bends && bends.length > 0) return throughBends(a, b, bends, LANE);
  const straight = facing(a, b);
  if (straight) return straight;
  const s = stub(a);
  const t = stub(b);
  const simple = bestSimple(map, s, a.side, t, b.side, effort);
  if (simple.clean) return finish(a, b, simple.pts);
  if (effort === 'quick') {
    const pulled = before ? stretched(before, a, b) : null;
    const pulledCost = pulled ? walk(map, pulled.slice(2, -2), lies(a.side), lies(b.side), simple.cost).cost : Number.POSITIVE_INFINITY;
    const best = pulled && pulledCost < simple.cost ? pulled : finish(a, b, simple.pts);
    if (Math.min(pulledCost, simple.cost) < COST.wall || limit <= 0 || buried(map, s) || buried(map, t)) return best;
    const nodes = search.find(map.node(s.x, s.y), lies(a.side), map.node(t.x, t.y), lies(b.side), limit, HASTE);
    const found = nodes && finish(a, b, pointsOf(map, nodes));
    return found && leavesBySides(found, a, b) ? found : best;
  }
  const nodes = search.find(map.node(s.x, s.y), lies(a.side), map.node(t.x, t.y), lies(b.side), FULL_LIMIT, haste);
  return finish(a, b, nodes ? pointsOf(map, nodes) : simple.pts);
}

/**
 * The old line with its end pieces pulled to the new ends; a first or last corner that would come too near its pad is
 * pushed on. Null when the line has too few corners for that, does not leave its pads by their sides (an emergency
 * way through a part: pulled on, it would be slanting), or belongs to a joint.
 */
export function stretched(before: Polyline, a: RouteEnd, b: RouteEnd): number[] | null {
  if (before.length < 10 || a.side === 'any' || b.side === 'any' || !leavesBySides(before, a, b)) return null;
  const pts = [...before];
  pull(pts, a);
  const back = reversed(pts);
  pull(back, b);
  return simplify(reversed(back));
}

/** Pulls the beginning of a line of at least five points to a pad. */
function pull(pts: number[], end: RouteEnd): void {
  const o = outward(end.side);
  pts[0] = end.x;
  pts[1] = end.y;
  if (lies(end.side)) {
    pts[3] = end.y;
    if (((pts[2] as number) - end.x) * o.x < LANE) pts[2] = pts[4] = end.x + o.x * LANE;
  } else {
    pts[2] = end.x;
    if (((pts[3] as number) - end.y) * o.y < LANE) pts[3] = pts[5] = end.y + o.y * LANE;
  }
}

/** Does a line go out of both its pads by their sides, and not back through the parts that they sit on? */
function leavesBySides(pts: Polyline, a: RouteEnd, b: RouteEnd): boolean {
  return headsOut(pts, a.side) && headsOut(reversed(pts), b.side);
}

function headsOut(pts: Polyline, side: RouteEnd['side']): boolean {
  if (side === 'any') return true;
  const o = outward(side);
  return ((pts[2] as number) - (pts[0] as number)) * o.x + ((pts[3] as number) - (pts[1] as number)) * o.y > 0;
}

function reversed(pts: Polyline): number[] {
  const out: number[] = [];
  for (let i = pts.length - 2; i >= 0; i -= 2) out.push(pts[i] as number, pts[i + 1] as number);
  return out;
}

/** First node of the lanes outside a pad: one lane out, or the pad itself for a joint. */
function stub(end: RouteEnd): Point {
  const o = outward(end.side);
  return { x: Math.round((end.x + o.x * LANE) / LANE) * LANE, y: Math.round((end.y + o.y * LANE) / LANE) * LANE };
}

/** Inside a body no way is a good one: while dragging over parts it is not worth looking for. */
function buried(map: LaneMap, p: Point): boolean {
  return (map.blocked[map.node(p.x, p.y)] as number) > 0;
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

function bestSimple(map: LaneMap, s: Point, sSide: RouteEnd['side'], t: Point, tSide: RouteEnd['side'], effort: Effort): Simple {
  const o = outward(sSide);
  const p = outward(tSide);
  let best: number[] = [s.x, s.y, t.x, s.y, t.x, t.y];
  let bestCost = Number.POSITIVE_INFINITY;
  let bestPlain = 0;
  const consider = (pts: number[]): void => {
    const line = simplify(pts);
    // Length and corners alone already cost more than the best so far: no need to walk it.
    if (lengthOf(line) * (COST.step / LANE) + bendCount(line) * COST.bend >= bestCost) return;
    const walked = walk(map, line, lies(sSide), lies(tSide), bestCost);
    const n = line.length;
    const isBack =
      ((line[2] as number) - s.x) * o.x + ((line[3] as number) - s.y) * o.y < 0 ||
      ((line[n - 4] as number) - t.x) * p.x + ((line[n - 3] as number) - t.y) * p.y < 0;
    // Back from the lane into the pad and through its part, which while it is dragged stands in nobody's way.
    const cost = walked.cost + (isBack ? COST.wall : 0);
    const { plain } = walked;
    if (cost < bestCost) {
      best = line;
      bestCost = cost;
      bestPlain = plain;
    }
  };
  for (const x of lanesBetween(s.x, t.x, effort)) consider([s.x, s.y, x, s.y, x, t.y, t.x, t.y]);
  for (const y of lanesBetween(s.y, t.y, effort)) consider([s.x, s.y, s.x, y, t.x, y, t.x, t.y]);
  return { pts: best, cost: bestCost, clean: bestCost <= bestPlain + CLEAN };
}

/** Lanes to try for the middle piece: the middle first, then outward to the ends, then a swing beyond them. */
function lanesBetween(a: number, b: number, effort: Effort): number[] {
  const low = Math.min(a, b);
  const high = Math.max(a, b);
  const middle = Math.round((low + high) / 2 / LANE) * LANE;
  const out = [middle, low, high];
  const lanes = (high - low) / LANE;
  const step = Math.max(1, Math.round(lanes / (effort === 'quick' ? QUICK_LANES : FULL_LANES))) * LANE;
  for (let d = step; middle - d > low || middle + d < high; d += step) {
    if (middle - d > low) out.push(middle - d);
    if (middle + d < high) out.push(middle + d);
  }
  for (let i = 1; i <= SWING; i += effort === 'quick' ? 2 : 1) out.push(high + i * LANE, low - i * LANE);
  return out;
}

/**
 * Cost of a given right-angled line over the lanes; `plain` = the part that length and corners alone would cost. Stops
 * past `limit`.
 */
function walk(map: LaneMap, pts: Polyline, startLies: boolean | null, endLies: boolean | null, limit: number): { cost: number; plain: number } {
  let cost = 0;
  let plain = 0;
  let lying = startLies;
  let node = map.node(pts[0] as number, pts[1] as number);
  for (let i = 2; i < pts.length; i += 2) {
    const goal = map.node(pts[i] as number, pts[i + 1] as number);
    if (goal === node) continue;
    const across = Math.floor(goal / map.cols) === Math.floor(node / map.cols);
    // A slanting piece is no way over the lanes.
    if (!across && (goal - node) % map.cols !== 0) return { cost: Number.POSITIVE_INFINITY, plain };
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
  // Where both pads have the same first node, each still needs a point of its own to be in line with.
  const line = pts.length === 2 ? [...pts, ...pts] : [...pts];
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
