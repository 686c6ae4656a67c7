import type { Id } from '../plan/types.ts';
import { type Graph, isGroundNode, nodeName, other } from './graph.ts';
import { type Ends, NO_SOURCE, type Protection, worseEnd } from './protection.ts';
import type { NetNature } from './roles.ts';
import type { EndProtection } from './types.ts';

/** Something that takes current from a rail and gives it back to ground. */
export interface Consumer {
  readonly part: Id;
  readonly plus: number;
  readonly minus: number;
  readonly label: string;
}

/** What takes no load current but is a short once it has failed. */
const SHUNTS: ReadonlySet<string> = new Set(['clamp', 'capacitor']);

/**
 * Every place that takes current from a rail and gives it back to ground: loads, converter inputs, and shunts, which may
 * fail. A contact or transistor between the two is no such place: protection is traced through it.
 */
export function consumers(graph: Graph): Consumer[] {
  const list: Consumer[] = [];
  for (const view of graph.views.values()) {
    const add = (plusAt: string, minusAt: string, label: string): void => {
      const plus = graph.indexOf.get(nodeName(view, plusAt));
      const minus = graph.indexOf.get(nodeName(view, minusAt));
      if (plus !== undefined && minus !== undefined) list.push({ part: view.part.id, plus, minus, label });
    };
    const { loads, polar = [], links = [] } = view.facts;
    if (loads) for (const load of loads) add(load.plus, load.minus, load.label);
    if (loads) continue;
    for (const pair of polar) if (!links.some((l) => l.type === 'contact' && l.a === pair.plus && l.b === pair.minus)) add(pair.plus, pair.minus, pair.what);
    for (const link of links) {
      if (!SHUNTS.has(link.type)) continue;
      add(link.a, link.b, view.name);
      add(link.b, link.a, view.name);
    }
  }
  return list;
}

/**
 * What can flow into the ends of each wire, by its first edge: for ground wires the currents that they bring back count,
 * too. A cable's second conductor is part of the cable: it is bought with it, not sized.
 */
export function wireEnds(graph: Graph, protection: Protection, natures: readonly NetNature[]): (edge: number) => Ends {
  const returns = returnProtection(graph, protection, natures);
  return (edge) => {
    const into = protection.ofEdge(edge);
    const { wire, a } = graph.edges[edge]!;
    const back = wire && natures[graph.net[a]!]!.role === 'ground' ? returns.get(wire.id) : undefined;
    return back ? { from: worseEnd(back, into.from), to: worseEnd(back, into.to) } : into;
  };
}

/**
 * Protection of ground wires: the largest protection at the plus terminal of any load that the wire brings back. On a
 * tree these are the loads on the side away from the chassis; in a ring every load counts.
 */
function returnProtection(graph: Graph, protection: Protection, natures: readonly NetNature[]): Map<Id, EndProtection> {
  const ground = new Uint8Array(graph.nodes.length);
  for (let n = 0; n < ground.length; n++) ground[n] = natures[graph.net[n]!]!.role === 'ground' ? 1 : 0;
  const parentEdge = new Int32Array(graph.nodes.length).fill(-1);
  const depth = new Int32Array(graph.nodes.length).fill(-1);
  const worst: (EndProtection | null)[] = graph.nodes.map(() => null);
  for (const c of consumers(graph)) {
    const p = protection.intoNode(c.plus);
    if (p.maxA > (worst[c.minus]?.maxA ?? 0)) worst[c.minus] = p;
  }
  const order: number[] = [];
  const rings = new Set<number>();
  const visit = (starts: readonly number[]): void => {
    const queue = starts.filter((n) => depth[n] === -1);
    for (const n of queue) depth[n] = 0;
    for (let q = 0; q < queue.length; q++) {
      const node = queue[q]!;
      order.push(node);
      for (const e of graph.at[node]!) {
        const edge = graph.edges[e]!;
        if (e === parentEdge[node] || (edge.link && edge.link.type !== 'join' && edge.link.type !== 'conductor')) continue;
        const next = other(edge, node);
        if (!ground[next]) continue;
        if (depth[next] === -1) {
          depth[next] = depth[node]! + 1;
          parentEdge[next] = e;
          queue.push(next);
        } else if (depth[next]! <= depth[node]!) rings.add(e);
      }
    }
  };
  // The body joins all its bars: they are visited together, so that a way from bar to bar counts as a ring.
  visit(graph.nodes.map((_, n) => n).filter((n) => isGroundNode(graph.nodes[n]!)));
  for (let n = 0; n < ground.length; n++) if (ground[n]) visit([n]);
  // Leaves first: what a node must bring back is the worst of what hangs below it.
  const carries: (EndProtection | null)[] = [...worst];
  for (let i = order.length - 1; i >= 0; i--) {
    const node = order[i]!;
    const e = parentEdge[node]!;
    if (e === -1) continue;
    const up = other(graph.edges[e]!, node);
    if ((carries[node]?.maxA ?? 0) > (carries[up]?.maxA ?? 0)) carries[up] = carries[node]!;
  }
  const result = new Map<Id, EndProtection>();
  const give = (e: number, p: EndProtection): void => {
    const id = graph.edges[e]!.wire?.id;
    if (id !== undefined && p.maxA >= (result.get(id)?.maxA ?? 0)) result.set(id, p);
  };
  for (const node of order) if (parentEdge[node] !== -1) give(parentEdge[node]!, carries[node] ?? NO_SOURCE);
  // In a ring any conductor may have to bring back everything below the place where the ring closes.
  for (const e of rings) {
    const ring = ringOf(graph, e, parentEdge, depth);
    const p = worseEnd(carries[ring.tops[0]] ?? NO_SOURCE, carries[ring.tops[1]] ?? NO_SOURCE);
    for (const x of [e, ...ring.edges]) give(x, p);
  }
  return result;
}

/** Tree edges that a further edge closes to a ring, and where it closes: one node, or two roots that the body joins. */
function ringOf(graph: Graph, e: number, parentEdge: Int32Array, depth: Int32Array): { edges: number[]; tops: [number, number] } {
  let { a, b } = graph.edges[e]!;
  const edges: number[] = [];
  while (a !== b) {
    if (depth[a]! < depth[b]!) [a, b] = [b, a];
    const up = parentEdge[a]!;
    if (up === -1) break;
    edges.push(up);
    a = other(graph.edges[up]!, a);
  }
  return { edges, tops: [a, b] };
}
