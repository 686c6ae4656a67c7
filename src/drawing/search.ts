import { COST, LANE, type LaneMap } from './lanes.ts';

/** Ring of cost buckets: longer than the dearest single step. */
const RING = 4096;

/**
 * States that wait, in buckets by cost; of one bucket the last put in comes out first. Buckets are lists inside two arrays
 * that are used again and again: a search that made thousands of small arrays would spend its time on clearing them away.
 */
class Buckets {
  private readonly head = new Int32Array(RING).fill(-1);
  private next = new Int32Array(4096);
  private state = new Int32Array(4096);
  private readonly used = new Int32Array(RING);
  private usedCount = 0;
  private count = 0;

  clear(): void {
    for (let i = 0; i < this.usedCount; i++) this.head[this.used[i] as number] = -1;
    this.usedCount = 0;
    this.count = 0;
  }

  put(cost: number, state: number): void {
    if (this.count === this.next.length) this.grow();
    const bucket = cost % RING;
    const head = this.head[bucket] as number;
    // A bucket that ran empty and fills again stands in `used` twice at most a ring later: clear() minds no doubles.
    if (head === -1) this.use(bucket);
    const entry = this.count++;
    this.state[entry] = state;
    this.next[entry] = head;
    this.head[bucket] = entry;
  }

  /** Takes a state of that cost out; -1 when there is none. */
  take(cost: number): number {
    const bucket = cost % RING;
    const entry = this.head[bucket] as number;
    if (entry === -1) return -1;
    this.head[bucket] = this.next[entry] as number;
    return this.state[entry] as number;
  }

  private use(bucket: number): void {
    if (this.usedCount === RING) {
      this.usedCount = 0;
      for (let i = 0; i < RING; i++) if (this.head[i] !== -1) this.used[this.usedCount++] = i;
    }
    this.used[this.usedCount++] = bucket;
  }

  private grow(): void {
    const twice = (from: Int32Array): Int32Array<ArrayBuffer> => {
      const to = new Int32Array(2 * from.length);
      to.set(from);
      return to;
    };
    this.next = twice(this.next);
    this.state = twice(this.state);
  }
}

/**
 * Cheapest way over the lanes (A* with whole-number costs in a bucket queue). State = node and whether the last step
 * lay or stood. Deterministic: equal costs are settled by order of discovery.
 */
export class LaneSearch {
  private readonly cost: Int32Array;
  private readonly back: Int32Array;
  private readonly seen: Int32Array;
  private readonly closed: Int32Array;
  private readonly buckets = new Buckets();
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
    const { map, cost, back, seen, closed, buckets } = this;
    const { cols, rows } = map;
    const round = ++this.round;
    const goalC = goal % cols;
    const goalR = Math.floor(goal / cols);
    const guess = (col: number, row: number, lying: boolean): number => {
      const dc = Math.abs(col - goalC);
      const dr = Math.abs(row - goalR);
      return Math.round(haste * ((dc + dr) * COST.step + leastBends(dc, dr, lying, goalLying) * COST.bend));
    };
    buckets.clear();
    let low = 0;
    let waiting = 0;
    const push = (col: number, row: number, lying: boolean, g: number, from: number): void => {
      const state = (row * cols + col) * 2 + (lying ? 0 : 1);
      if (seen[state] === round && (cost[state] as number) <= g) return;
      seen[state] = round;
      cost[state] = g;
      back[state] = from;
      buckets.put(Math.min(Math.max(low, g + guess(col, row, lying)), low + RING - 1), state);
      waiting++;
    };
    const startC = start % cols;
    const startR = Math.floor(start / cols);
    low = guess(startC, startR, startLying ?? true);
    if (startLying !== false) push(startC, startR, true, 0, -1);
    if (startLying !== true) push(startC, startR, false, 0, -1);
    this.settled = 0;
    while (waiting > 0) {
      const state = buckets.take(low);
      if (state === -1) {
        low++;
        continue;
      }
      waiting--;
      if (closed[state] === round) continue;
      closed[state] = round;
      const node = state >> 1;
      const lying = (state & 1) === 0;
      if (node === goal && (goalLying === null || lying === goalLying)) return this.trace(state);
      if (++this.settled > limit) return null;
      const g = cost[state] as number;
      const first = node === start;
      const col = node % cols;
      const row = (node - col) / cols;
      const turn = g + map.turnCost(node);
      if (node === goal) push(goalC, goalR, goalLying === true, g + COST.bend, back[state] as number);
      const straight = g + (first ? 0 : map.passCost(node, lying));
      const across = lying ? straight : first ? g + COST.bend : turn;
      const along = lying ? (first ? g + COST.bend : turn) : straight;
      if (col > 0) push(col - 1, row, true, across + map.edgeCost(node, node - 1, true), state);
      if (col < cols - 1) push(col + 1, row, true, across + map.edgeCost(node, node + 1, true), state);
      if (row > 0) push(col, row - 1, false, along + map.edgeCost(node, node - cols, false), state);
      if (row < rows - 1) push(col, row + 1, false, along + map.edgeCost(node, node + cols, false), state);
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
