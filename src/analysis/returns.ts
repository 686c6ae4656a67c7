import type { Id } from '../plan/types.ts';
import { type Graph, nodeName, other } from './graph.ts';
import type { Protection } from './protection.ts';
import type { NetNature } from './roles.ts';
import type { EndProtection } from './types.ts';

/** Something that takes current from a rail and gives it back to ground. */
export interface Consumer {
  readonly part: Id;
  readonly plus: number;
  readonly minus: number;
  readonly label: string;
}

/** Every place that takes current from a rail and gives it back to ground: loads, converter inputs, shunts (a failed clamp). */
export function consumers(graph: Graph): Consumer[] {
  const list: Consumer[] = [];
  for (const view of graph.views.values()) {
    for (const load of view.facts.loads ?? []) {
      const plus = graph.indexOf.get(nodeName(view, load.plus));
      const minus = graph.indexOf.get(nodeName(view, load.minus));
      if (plus !== undefined && minus !== undefined) list.push({ part: view.part.id, plus, minus, label: load.label });
    }
    for (const pair of view.facts.loads ? [] : (view.facts.polar ?? [])) {
      const plus = graph.indexOf.get(nodeName(view, pair.plus));
      const minus = graph.indexOf.get(nodeName(view, pair.minus));
      if (plus !== undefined && minus !== undefined) list.push({ part: view.part.id, plus, minus, label: pair.what });
    }
  }
  return list;
}

/**
 * Protection of ground wires: the largest protection at the plus terminal of any load that the wire brings back. On a
 * tree these are the loads on the side away from the chassis; in a ring every load counts.
 */
export function returnProtection(graph: Graph, protection: Protection, natures: readonly NetNature[]): Map<Id, { from: EndProtection; to: EndProtection }> {
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
  const roots = graph.nodes.map((_, n) => n).filter((n) => graph.nodes[n] === '0' || graph.nodes[n]!.startsWith('chassis:'));
  const rings = new Set<number>();
  const visit = (start: number): void => {
    if (depth[start] !== -1) return;
    depth[start] = 0;
    const queue = [start];
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
  for (const r of roots) visit(r);
  for (let n = 0; n < ground.length; n++) if (ground[n]) visit(n);
  // Leaves first: what a node must bring back is the worst of what hangs below it.
  const carries: (EndProtection | null)[] = [...worst];
  for (let i = order.length - 1; i >= 0; i--) {
    const node = order[i]!;
    const e = parentEdge[node]!;
    if (e === -1) continue;
    const up = other(graph.edges[e]!, node);
    if ((carries[node]?.maxA ?? 0) > (carries[up]?.maxA ?? 0)) carries[up] = carries[node]!;
  }
  const none: EndProtection = { maxA: 0, byPart: null, byName: 'no source' };
  const result = new Map<Id, { from: EndProtection; to: EndProtection }>();
  const give = (e: number, p: EndProtection): void => {
    const id = graph.edges[e]!.wire?.id;
    if (id !== undefined && p.maxA >= (result.get(id)?.from.maxA ?? 0)) result.set(id, { from: p, to: p });
  };
  for (const node of order) if (parentEdge[node] !== -1) give(parentEdge[node]!, carries[node] ?? none);
  // In a ring any conductor may have to bring back everything below the place where the ring closes.
  for (const e of rings) {
    const ring = ringOf(graph, e, parentEdge, depth);
    const p = carries[ring.top] ?? none;
    for (const x of [e, ...ring.edges]) give(x, p);
  }
  return result;
}

/** Tree edges that a further edge closes to a ring, and the node where it closes (a root when it joins two trees). */
function ringOf(graph: Graph, e: number, parentEdge: Int32Array, depth: Int32Array): { edges: number[]; top: number } {
  let { a, b } = graph.edges[e]!;
  const edges: number[] = [];
  while (a !== b) {
    if (depth[a]! < depth[b]!) [a, b] = [b, a];
    const up = parentEdge[a]!;
    if (up === -1) break;
    edges.push(up);
    a = other(graph.edges[up]!, a);
  }
  return { edges, top: a };
}
