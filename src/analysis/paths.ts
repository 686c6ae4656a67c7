import type { Graph } from './graph.ts';
import { other } from './graph.ts';

/** Link types that carry load current on. */
const CARRIES: ReadonlySet<string> = new Set(['join', 'fuse', 'contact', 'diode', 'conductor']);

/** The cheapest way from a set of roots to every node: previous edge and cost. */
export interface Tree {
  /** Edge by which a node is reached from its root; -1 at roots and unreached nodes. */
  readonly via: Int32Array;
  readonly cost: Float64Array;
  /** Root node of each node, -1 when unreached. */
  readonly root: Int32Array;
}

/**
 * Dijkstra over the edges that carry load current (wires, joins, fuses, contacts, diodes, chokes).
 * @param costOf cost of an edge, >= 0 (metres or ohms); Infinity = not this way.
 */
export function treeFrom(graph: Graph, roots: readonly number[], costOf: (edge: number) => number): Tree {
  const n = graph.nodes.length;
  const via = new Int32Array(n).fill(-1);
  const root = new Int32Array(n).fill(-1);
  const cost = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  const heap = new Heap();
  for (const r of roots) {
    cost[r] = 0;
    root[r] = r;
    heap.push(0, r);
  }
  for (let node = heap.pop(); node !== -1; node = heap.pop()) {
    if (heap.cost > cost[node]!) continue;
    for (const e of graph.at[node]!) {
      const edge = graph.edges[e]!;
      if (edge.link && !carries(edge.link.type, edge.a === node)) continue;
      const next = other(edge, node);
      const c = cost[node]! + costOf(e);
      if (c < cost[next]!) {
        cost[next] = c;
        via[next] = e;
        root[next] = root[node]!;
        heap.push(c, next);
      }
    }
  }
  return { via, cost, root };
}

function carries(type: string, forward: boolean): boolean {
  return CARRIES.has(type) && (type !== 'diode' || forward);
}

/** Edges from a node back to its root, nearest first; [] when it is a root or not reached. */
export function pathBack(graph: Graph, tree: Tree, node: number): number[] {
  const path: number[] = [];
  for (let at = node, e = tree.via[at]!; e !== -1; e = tree.via[at]!) {
    path.push(e);
    at = other(graph.edges[e]!, at);
  }
  return path;
}

/** A plain binary heap of (cost, node). */
class Heap {
  private readonly costs: number[] = [];
  private readonly nodes: number[] = [];
  /** Cost of the node popped last. */
  cost = 0;

  push(cost: number, node: number): void {
    let i = this.costs.length;
    this.costs.push(cost);
    this.nodes.push(node);
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (this.costs[up]! <= this.costs[i]!) break;
      this.swap(i, up);
      i = up;
    }
  }

  /** The cheapest node, or -1 when empty. */
  pop(): number {
    if (this.nodes.length === 0) return -1;
    const node = this.nodes[0]!;
    this.cost = this.costs[0]!;
    const lastCost = this.costs.pop()!;
    const lastNode = this.nodes.pop()!;
    if (this.nodes.length > 0) {
      this.costs[0] = lastCost;
      this.nodes[0] = lastNode;
      let i = 0;
      for (;;) {
        const left = 2 * i + 1;
        let least = i;
        if (left < this.costs.length && this.costs[left]! < this.costs[least]!) least = left;
        if (left + 1 < this.costs.length && this.costs[left + 1]! < this.costs[least]!) least = left + 1;
        if (least === i) break;
        this.swap(i, least);
        i = least;
      }
    }
    return node;
  }

  private swap(i: number, j: number): void {
    [this.costs[i], this.costs[j]] = [this.costs[j]!, this.costs[i]!];
    [this.nodes[i], this.nodes[j]] = [this.nodes[j]!, this.nodes[i]!];
  }
}
