import type { Polyline } from './polyline.ts';
import type { Box } from './types.ts';

/** Distance of neighbouring lanes, drawing units; equals the raster on which pads lie. */
export const LANE = 10;

/** Costs of a route in tenths of a unit of length: what the eye minds, weighed against a detour. Our own choice. */
export const COST = {
  step: 10,
  bend: 45,
  cross: 18,
  /** Running over another wire, a lane step. */
  overlap: 220,
  /** Meeting a corner or end of another wire: reads as a joint that is not there. */
  touch: 110,
  /** Through a part: only when there is no other way. */
  wall: 400,
} as const;

/** Parts keep this much free around them: less than a lane, so that the lane beside a part stays open. */
const MARGIN = LANE - 1;

/**
 * The lanes of a drawing: a raster of nodes one lane apart, with what blocks them, what a wire should rather avoid,
 * and which edges wires already use. Nodes are numbered row by row.
 */
export class LaneMap {
  readonly cols: number;
  readonly rows: number;
  readonly x: number;
  readonly y: number;
  /** How many parts cover a node. */
  readonly blocked: Uint8Array;
  /** Extra cost of entering a node (labels, strips in front of terminals). */
  readonly soft: Uint8Array;
  /** Wires on the edge from a node to its right, or lower, neighbour. */
  readonly right: Uint8Array;
  readonly down: Uint8Array;

  constructor(bounds: Box) {
    this.x = Math.floor(bounds.x / LANE) * LANE;
    this.y = Math.floor(bounds.y / LANE) * LANE;
    this.cols = Math.ceil((bounds.x + bounds.w - this.x) / LANE) + 1;
    this.rows = Math.ceil((bounds.y + bounds.h - this.y) / LANE) + 1;
    const n = this.cols * this.rows;
    this.blocked = new Uint8Array(n);
    this.soft = new Uint8Array(n);
    this.right = new Uint8Array(n);
    this.down = new Uint8Array(n);
  }

  get size(): number {
    return this.cols * this.rows;
  }
  col(x: number): number {
    return Math.max(0, Math.min(this.cols - 1, Math.round((x - this.x) / LANE)));
  }
  row(y: number): number {
    return Math.max(0, Math.min(this.rows - 1, Math.round((y - this.y) / LANE)));
  }
  node(x: number, y: number): number {
    return this.row(y) * this.cols + this.col(x);
  }
  nodeX(node: number): number {
    return this.x + (node % this.cols) * LANE;
  }
  nodeY(node: number): number {
    return this.y + Math.floor(node / this.cols) * LANE;
  }

  /** Adds (or with -1 removes) a part's body. */
  block(box: Box, by: 1 | -1 = 1): void {
    this.eachNode(box, MARGIN, (n) => {
      this.blocked[n] = (this.blocked[n] as number) + by;
    });
  }

  /** Makes an area dearer to enter, per step. */
  soften(box: Box, cost: number): void {
    this.eachNode(box, 0, (n) => {
      this.soft[n] = Math.min(255, (this.soft[n] as number) + cost);
    });
  }

  /** Marks (or with -1 frees) the lanes a wire runs on. */
  mark(pts: Polyline, by: 1 | -1 = 1): void {
    for (let i = 0; i + 3 < pts.length; i += 2) {
      const c0 = this.col(pts[i] as number);
      const r0 = this.row(pts[i + 1] as number);
      const c1 = this.col(pts[i + 2] as number);
      const r1 = this.row(pts[i + 3] as number);
      const [ca, cb] = c0 < c1 ? [c0, c1] : [c1, c0];
      const [ra, rb] = r0 < r1 ? [r0, r1] : [r1, r0];
      for (let c = ca; c < cb; c++) this.right[r0 * this.cols + c] = (this.right[r0 * this.cols + c] as number) + by;
      for (let r = ra; r < rb; r++) this.down[r * this.cols + c1] = (this.down[r * this.cols + c1] as number) + by;
    }
  }

  /** Cost of going straight on through a node; lying = the wire runs left-right. */
  passCost(n: number, lying: boolean): number {
    const a = lying ? (this.down[n - this.cols] ?? 0) : n % this.cols === 0 ? 0 : (this.right[n - 1] as number);
    const b = lying ? (this.down[n] as number) : (this.right[n] as number);
    if (a === 0 && b === 0) return 0;
    return a > 0 && b > 0 ? COST.cross * Math.max(a, b) : COST.touch;
  }

  /** Cost of turning at a node, the bend itself included. */
  turnCost(n: number): number {
    const used =
      (this.right[n] as number) + (this.down[n] as number) + (this.down[n - this.cols] ?? 0) + (n % this.cols === 0 ? 0 : (this.right[n - 1] as number));
    return used > 0 ? COST.bend + COST.touch : COST.bend;
  }

  /** Cost of the edge between two neighbours, entering `to`. */
  edgeCost(from: number, to: number, lying: boolean): number {
    const edge = Math.min(from, to);
    const used = (lying ? this.right[edge] : this.down[edge]) as number;
    return COST.step + (this.soft[to] as number) + used * COST.overlap + ((this.blocked[to] as number) > 0 ? COST.wall : 0);
  }

  private eachNode(box: Box, margin: number, visit: (node: number) => void): void {
    const c0 = Math.max(0, Math.ceil((box.x - margin - this.x) / LANE));
    const c1 = Math.min(this.cols - 1, Math.floor((box.x + box.w + margin - this.x) / LANE));
    const r0 = Math.max(0, Math.ceil((box.y - margin - this.y) / LANE));
    const r1 = Math.min(this.rows - 1, Math.floor((box.y + box.h + margin - this.y) / LANE));
    for (let r = r0; r <= r1; r++) for (let c = c0; c <= c1; c++) visit(r * this.cols + c);
  }
}
