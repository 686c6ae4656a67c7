/** A directed edge with a capacity; `tag` names what it stands for. */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly cap: number;
  readonly tag: number;
}

/**
 * Greatest flow from s to t (shortest augmenting paths; the graphs here have tens of nodes) and the tags of a
 * smallest cut next to t. Infinity when an uncapped way exists.
 */
export function maxFlow(nodes: number, arcs: readonly Arc[], s: number, t: number): { flow: number; cut: number[] } {
  if (s === t) return { flow: Number.POSITIVE_INFINITY, cut: [] };
  const cap = new Float64Array(arcs.length * 2);
  const head: number[][] = Array.from({ length: nodes }, () => []);
  arcs.forEach((a, i) => {
    cap[2 * i] = a.cap;
    head[a.from]!.push(2 * i);
    head[a.to]!.push(2 * i + 1);
  });
  const to = (e: number): number => (e % 2 === 0 ? arcs[e >> 1]!.to : arcs[e >> 1]!.from);
  let flow = 0;
  for (;;) {
    const via = new Int32Array(nodes).fill(-1);
    const queue = [s];
    const seen = new Uint8Array(nodes);
    seen[s] = 1;
    for (let q = 0; q < queue.length && !seen[t]; q++) {
      for (const e of head[queue[q]!]!) {
        const next = to(e);
        if (!seen[next] && cap[e]! > 1e-12) {
          seen[next] = 1;
          via[next] = e;
          queue.push(next);
        }
      }
    }
    if (!seen[t]) return { flow, cut: cutNear(nodes, arcs, cap, head, to, t) };
    let least = Number.POSITIVE_INFINITY;
    for (let at = t; at !== s; at = to(via[at]! ^ 1)) least = Math.min(least, cap[via[at]!]!);
    if (least === Number.POSITIVE_INFINITY) return { flow: least, cut: [] };
    for (let at = t; at !== s; at = to(via[at]! ^ 1)) {
      cap[via[at]!]! -= least;
      cap[via[at]! ^ 1]! += least;
    }
    flow += least;
  }
}

/** Saturated arcs into the set from which t can still be reached: the cut nearest to t. */
function cutNear(nodes: number, arcs: readonly Arc[], cap: Float64Array, head: number[][], to: (e: number) => number, t: number): number[] {
  const reaches = new Uint8Array(nodes);
  reaches[t] = 1;
  const queue = [t];
  for (let q = 0; q < queue.length; q++) {
    for (const e of head[queue[q]!]!) {
      const before = to(e);
      if (!reaches[before] && cap[e ^ 1]! > 1e-12) {
        reaches[before] = 1;
        queue.push(before);
      }
    }
  }
  const tags = new Set<number>();
  for (const a of arcs) if (!reaches[a.from] && reaches[a.to] && a.cap > 0) tags.add(a.tag);
  return [...tags];
}
