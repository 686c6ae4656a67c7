import { type Graph, isGroundNode, other } from './graph.ts';

/**
 * The graph with only those edges that let any current pass: islands of nodes, the wires that hold an island together
 * (bridges), and on which side of a bridge the chassis lies.
 */
export class Islands {
  /** Island of each node. */
  readonly of: Int32Array;
  count = 0;
  private readonly isBridge: Uint8Array;
  /** Node below a bridge in the order of visiting. */
  private readonly childOf: Int32Array;
  /** First and last visiting time below each node. */
  private readonly first: Int32Array;
  private readonly last: Int32Array;
  /** Ground nodes visited before each time. */
  private readonly groundsBefore: Int32Array;
  /** First visiting time of each island and of the one after it. */
  private readonly span: [from: number, to: number][] = [];

  /** @param passes whether an edge belongs to the graph looked at */
  constructor(
    private readonly graph: Graph,
    passes: (edge: number) => boolean,
  ) {
    const n = graph.nodes.length;
    this.of = new Int32Array(n).fill(-1);
    this.first = new Int32Array(n);
    this.last = new Int32Array(n);
    this.groundsBefore = new Int32Array(n + 1);
    this.isBridge = new Uint8Array(graph.edges.length);
    this.childOf = new Int32Array(graph.edges.length).fill(-1);
    this.visitAll(passes);
  }

  /** Whether an island holds a chassis bar or the battery's negative post. */
  isGrounded(island: number): boolean {
    return this.groundsIn(island) > 0;
  }

  /** When a node was visited: what hangs below a node has the times right after it. */
  timeOf(node: number): number {
    return this.first[node]!;
  }

  /** The two halves that an edge alone holds together, as seen from its ends; null when there is a way round. */
  split(edge: number): { a: Half; b: Half } | null {
    if (!this.isBridge[edge]) return null;
    const child = this.childOf[edge]!;
    const [from, to] = [this.first[child]!, this.last[child]! + 1];
    const grounds = this.groundsBefore[to]! - this.groundsBefore[from]!;
    const below: Half = { from, to, inside: true, grounded: grounds > 0 };
    const above: Half = { from, to, inside: false, grounded: grounds < this.groundsIn(this.of[child]!) };
    return this.graph.edges[edge]!.a === child ? { a: below, b: above } : { a: above, b: below };
  }

  private groundsIn(island: number): number {
    const [from, to] = this.span[island]!;
    return this.groundsBefore[to]! - this.groundsBefore[from]!;
  }

  /** One depth-first pass (explicit stack: plans may be long chains). */
  private visitAll(passes: (edge: number) => boolean): void {
    const { nodes, edges, at } = this.graph;
    const low = new Int32Array(nodes.length);
    let clock = 0;
    const enter = (node: number, island: number): void => {
      this.of[node] = island;
      this.first[node] = low[node] = clock;
      this.groundsBefore[clock + 1] = this.groundsBefore[clock]! + (isGroundNode(nodes[node]!) ? 1 : 0);
      clock++;
    };
    const stackNode: number[] = [];
    const stackVia: number[] = [];
    const next = new Int32Array(nodes.length);
    for (let start = 0; start < nodes.length; start++) {
      if (this.of[start] !== -1) continue;
      const island = this.count++;
      const from = clock;
      enter(start, island);
      stackNode.push(start);
      stackVia.push(-1);
      while (stackNode.length > 0) {
        const node = stackNode[stackNode.length - 1]!;
        const via = stackVia[stackVia.length - 1]!;
        const e = at[node]![next[node]!++];
        if (e === undefined) {
          this.last[node] = clock - 1;
          stackNode.pop();
          stackVia.pop();
          const up = stackNode[stackNode.length - 1];
          if (up === undefined) continue;
          low[up] = Math.min(low[up]!, low[node]!);
          if (low[node]! > this.first[up]!) {
            this.isBridge[via] = 1;
            this.childOf[via] = node;
          }
          continue;
        }
        if (e === via || !passes(e)) continue;
        const there = other(edges[e]!, node);
        if (this.of[there] === -1) {
          enter(there, island);
          stackNode.push(there);
          stackVia.push(e);
        } else low[node] = Math.min(low[node]!, this.first[there]!);
      }
      this.span.push([from, clock]);
    }
  }
}

/** One side of a bridge: the nodes of its island whose times are inside (or outside) a range. */
export interface Half {
  readonly from: number;
  readonly to: number;
  readonly inside: boolean;
  readonly grounded: boolean;
}

export function holds(half: Half, time: number): boolean {
  return (time >= half.from && time < half.to) === half.inside;
}
