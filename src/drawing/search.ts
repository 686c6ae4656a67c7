import { COST, LANE, type LaneMap } from './lanes.ts';

/** Ring of cost buckets: longer than the dearest single step. */
const RING = 4096;

/**
 * Cheapest way over the lanes (A* with whole-number costs in a bucket queue). State = node and whether the last step
 * lay or stood. Deterministic: equal costs are settled by order of discovery.
 */
export class LaneSearch {
  private readonly cost: Int32Array;
  private readonly back: Int32Array;
  private readonly seen: Int32Array;
  private readonly closed: Int32Array;
  private readonly buckets: number[][] = Array.from({ length: RING }, () => []);
  private round = 0;
  /** States settled by the last search: a measure of its cost that does not depend on the machine. */
  settled = 0;

  constructor(private readonly map: LaneMap) {
    const n = map.size * 2;
    this.cost = new Int32Array(n);
    this.back = new Int32Array(n);
    this.seen = new Int32Array(n);
    this.closed = new Int32Array(n);
  }

  /**
   * @param start, goal nodes; `startLying` the way the wire leaves, `goalLying` the way it must arrive; null = either
   * @param limit greatest number of states to settle
   * @param haste 1 = the cheapest way; more = sooner found, up to so many times as dear
   * @returns node numbers from start to goal, or null when the limit is reached
   */
  find(start: number, startLying: boolean | null, goal: number, goalLying: boolean | null, limit: number, haste = 1): number[] | null {
    const { map, cost, back, seen, closed } = this;
    const { cols, rows } = map;
    const round = ++this.round;
    const goalC = goal % cols;
    const goalR = Math.floor(goal / cols);
    const guess = (node: number, lying: boolean): number => {
      const dc = Math.abs((node % cols) - goalC);
      const dr = Math.abs(Math.floor(node / cols) - goalR);
      return Math.round(haste * ((dc + dr) * COST.step + leastBends(dc, dr, lying, goalLying) * COST.bend));
    };
    for (const bucket of this.buckets) bucket.length = 0;
    let low = 0;
    let waiting = 0;
    const push = (state: number, g: number, from: number): void => {
      if (seen[state] === round && (cost[state] as number) <= g) return;
      seen[state] = round;
      cost[state] = g;
      back[state] = from;
      const f = g + guess(state >> 1, (state & 1) === 0);
      (this.buckets[Math.min(Math.max(low, f), low + RING - 1) % RING] as number[]).push(state);
      waiting++;
    };
    low = guess(start, startLying ?? true);
    if (startLying !== false) push(start * 2, 0, -1);
    if (startLying !== true) push(start * 2 + 1, 0, -1);
    this.settled = 0;
    while (waiting > 0) {
      const bucket = this.buckets[low % RING] as number[];
      if (bucket.length === 0) {
        low++;
        continue;
      }
      waiting--;
      const state = bucket.pop() as number;
      if (closed[state] === round) continue;
      closed[state] = round;
      const node = state >> 1;
      const lying = (state & 1) === 0;
      if (node === goal && (goalLying === null || lying === goalLying)) return this.trace(state);
      if (++this.settled > limit) return null;
      const g = cost[state] as number;
      const first = node === start;
      const col = node % cols;
      const row = Math.floor(node / cols);
      const turn = g + map.turnCost(node);
      if (node === goal) push(goal * 2 + (goalLying ? 0 : 1), g + COST.bend, back[state] as number);
      const straight = g + (first ? 0 : map.passCost(node, lying));
      const across = lying ? straight : first ? g + COST.bend : turn;
      const along = lying ? (first ? g + COST.bend : turn) : straight;
      if (col > 0) push((node - 1) * 2, across + map.edgeCost(node, node - 1, true), state);
      if (col < cols - 1) push((node + 1) * 2, across + map.edgeCost(node, node + 1, true), state);
      if (row > 0) push((node - cols) * 2 + 1, along + map.edgeCost(node, node - cols, false), state);
      if (row < rows - 1) push((node + cols) * 2 + 1, along + map.edgeCost(node, node + cols, false), state);
    }
    return null;
  }

  private trace(end: number): number[] {
    const nodes: number[] = [];
    for (let s = end; s !== -1; s = this.back[s] as number) nodes.push(s >> 1);
    return nodes.reverse();
  }
}

/** Fewest corners that can still be ahead. */
function leastBends(dc: number, dr: number, lying: boolean, goalLying: boolean | null): number {
  if (goalLying === null) return dc > 0 && dr > 0 ? 1 : 0;
  if (lying !== goalLying) return 1;
  if (dc === 0 && dr === 0) return 0;
  if (dc > 0 && dr > 0) return 2;
  return dc > 0 === lying ? 0 : 2;
}

/** Corner points of a way over nodes, as a flat polyline. */
export function pointsOf(map: LaneMap, nodes: readonly number[]): number[] {
  const pts: number[] = [];
  for (const n of nodes) pts.push(map.x + (n % map.cols) * LANE, map.y + Math.floor(n / map.cols) * LANE);
  return pts;
}
