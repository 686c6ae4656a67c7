import type { Id } from '../plan/types.ts';
import { supplyCorners } from '../trade/supply.ts';
import type { PartView } from './factsTypes.ts';
import { type Graph, nodeName, other } from './graph.ts';
import { type Arc, maxFlow } from './maxflow.ts';
import type { EndProtection } from './types.ts';

/** Link types through which a fault current passes unhindered, in any state that a contact can reach. */
const OPEN_WAY: ReadonlySet<string> = new Set(['join', 'contact', 'conductor']);

/** A part through which a fault current passes only up to a limit (fuse, resistor), or one way (diode). */
interface Gate {
  readonly a: number;
  readonly b: number;
  readonly cap: number;
  readonly oneWay: boolean;
  readonly view: PartView;
}

interface Feed {
  readonly node: number;
  readonly cap: number;
  readonly view: PartView;
}

const FREE: EndProtection = { maxA: 0, byPart: null, byName: 'no source' };

/**
 * For every wire and each of its ends, the greatest current that can persist into that end from all sources together
 * with the wire removed: the maximum flow, edge capacity = fuse rating, resistor current or source limit. Conductors that
 * no gate separates form islands; only the islands and gates make the flow problem, so a thousand wires stay quick.
 */
export class Protection {
  private readonly islandOf: Int32Array;
  private readonly gates: Gate[] = [];
  private readonly feeds: Feed[] = [];
  private readonly attachments: number[][];
  private readonly memo = new Map<string, EndProtection>();
  private readonly tin: Int32Array;
  private readonly tout: Int32Array;
  private readonly isBridge: Uint8Array;
  private readonly childOf: Int32Array;
  private islands = 0;

  constructor(readonly graph: Graph) {
    const n = graph.nodes.length;
    this.collect();
    this.islandOf = new Int32Array(n).fill(-1);
    this.tin = new Int32Array(n);
    this.tout = new Int32Array(n);
    this.isBridge = new Uint8Array(graph.edges.length);
    this.childOf = new Int32Array(graph.edges.length).fill(-1);
    this.number();
    // What is attached to each island, as +gate, or -(feed + 1), with the node where it is attached.
    this.attachments = Array.from({ length: this.islands }, () => []);
    this.gates.forEach((g, i) => {
      this.attachments[this.islandOf[g.a]!]!.push(i);
      if (this.islandOf[g.b] !== this.islandOf[g.a]) this.attachments[this.islandOf[g.b]!]!.push(i);
    });
    this.feeds.forEach((f, i) => {
      this.attachments[this.islandOf[f.node]!]!.push(-(i + 1));
    });
  }

  /** Protection at both ends of a wire; ground returns are judged by what their loads can pass (see returns.ts). */
  ofWire(id: Id): { from: EndProtection; to: EndProtection } {
    const e = this.graph.edges.findIndex((x) => x.wire?.id === id);
    return e === -1 ? { from: FREE, to: FREE } : this.ofEdge(e);
  }

  ofEdge(e: number): { from: EndProtection; to: EndProtection } {
    const edge = this.graph.edges[e]!;
    const island = this.islandOf[edge.a]!;
    if (!this.isBridge[e]) {
      const both = this.into(island, null);
      return { from: both, to: both };
    }
    const child = this.childOf[e]!;
    const inner = (node: number): boolean => this.tin[node]! >= this.tin[child]! && this.tin[node]! <= this.tout[child]!;
    const below = this.into(island, { inner, want: true });
    const above = this.into(island, { inner, want: false });
    return edge.a === child ? { from: below, to: above } : { from: above, to: below };
  }

  /** Greatest persistent current into a node with nothing removed. */
  intoNode(node: number): EndProtection {
    return this.into(this.islandOf[node]!, null);
  }

  private into(island: number, half: { inner: (node: number) => boolean; want: boolean } | null): EndProtection {
    const attached = this.attachments[island]!;
    const mine = half ? attached.filter((x) => this.nodesOf(x, island).some((n) => half.inner(n) === half.want)) : attached;
    if (mine.length === 0) return FREE;
    const key = half
      ? `${island}|${mine.join()}|${attached.filter((x) => this.nodesOf(x, island).some((n) => half.inner(n) !== half.want)).join()}`
      : `${island}`;
    let found = this.memo.get(key);
    if (!found) {
      found = this.solve(island, half);
      this.memo.set(key, found);
    }
    return found;
  }

  /** Where an attachment touches an island. */
  private nodesOf(x: number, island: number): number[] {
    if (x < 0) return [this.feeds[-x - 1]!.node];
    const g = this.gates[x]!;
    return [g.a, g.b].filter((n) => this.islandOf[n] === island);
  }

  private solve(island: number, half: { inner: (node: number) => boolean; want: boolean } | null): EndProtection {
    const source = this.islands;
    const rest = this.islands + 1; // the other half of a split island
    const place = (node: number): number => {
      const at = this.islandOf[node]!;
      return at === island && half && half.inner(node) !== half.want ? rest : at;
    };
    const arcs: Arc[] = [];
    this.gates.forEach((g, i) => {
      arcs.push({ from: place(g.a), to: place(g.b), cap: g.cap, tag: i });
      if (!g.oneWay) arcs.push({ from: place(g.b), to: place(g.a), cap: g.cap, tag: i });
    });
    this.feeds.forEach((f, i) => {
      arcs.push({ from: source, to: place(f.node), cap: f.cap, tag: -(i + 1) });
    });
    const { flow, cut } = maxFlow(this.islands + 2, arcs, source, island);
    if (flow === 0) return FREE;
    if (flow === Number.POSITIVE_INFINITY) return { maxA: flow, byPart: null, byName: 'nothing' };
    const views = cut.map((tag) => (tag < 0 ? this.feeds[-tag - 1]!.view : this.gates[tag]!.view));
    const distinct = [...new Set(views)];
    return { maxA: flow, byPart: distinct[0]?.part.id ?? null, byName: distinct.map((v) => v.item).join(' + ') };
  }

  private collect(): void {
    const { hiV } = supplyCorners(this.graph.plan.vehicle.systemV, this.graph.plan.vehicle.dipLevel);
    for (const e of this.graph.edges) {
      if (!e.link || !e.view) continue;
      const { type, ratingA, ohm } = e.link;
      const gate = { a: e.a, b: e.b, view: e.view };
      if (type === 'fuse') this.gates.push({ ...gate, cap: ratingA ?? Number.POSITIVE_INFINITY, oneWay: false });
      if (type === 'resistor') this.gates.push({ ...gate, cap: hiV / Math.max(ohm ?? 1e-3, 1e-3), oneWay: false });
      if (type === 'diode') this.gates.push({ ...gate, cap: Number.POSITIVE_INFINITY, oneWay: true });
    }
    for (const view of this.graph.views.values()) {
      for (const s of view.facts.sources ?? []) {
        const node = this.graph.indexOf.get(nodeName(view, s.terminal));
        if (node === undefined) continue;
        const donor = s.donorFuseRead ? (s.donorFuseA ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
        this.feeds.push({ node, view, cap: Math.min(donor, s.limitA ?? Number.POSITIVE_INFINITY) });
      }
    }
  }

  /** Numbers islands, visiting times and bridges in one depth-first pass (explicit stack: plans may be long chains). */
  private number(): void {
    const { nodes, edges, at } = this.graph;
    const low = new Int32Array(nodes.length);
    let clock = 0;
    for (let start = 0; start < nodes.length; start++) {
      if (this.islandOf[start] !== -1) continue;
      const island = this.islands++;
      const stack: { node: number; via: number; next: number }[] = [{ node: start, via: -1, next: 0 }];
      this.islandOf[start] = island;
      this.tin[start] = low[start] = clock++;
      while (stack.length > 0) {
        const top = stack[stack.length - 1]!;
        const e = at[top.node]![top.next++];
        if (e === undefined) {
          this.tout[top.node] = clock - 1;
          stack.pop();
          const up = stack[stack.length - 1];
          if (up) {
            low[up.node] = Math.min(low[up.node]!, low[top.node]!);
            if (low[top.node]! > this.tin[up.node]!) {
              this.isBridge[top.via] = 1;
              this.childOf[top.via] = top.node;
            }
          }
          continue;
        }
        const edge = edges[e]!;
        if (e === top.via || (edge.link && !OPEN_WAY.has(edge.link.type))) continue;
        const next = other(edge, top.node);
        if (this.islandOf[next] === -1) {
          this.islandOf[next] = island;
          this.tin[next] = low[next] = clock++;
          stack.push({ node: next, via: e, next: 0 });
        } else low[top.node] = Math.min(low[top.node]!, this.tin[next]!);
      }
    }
  }
}
