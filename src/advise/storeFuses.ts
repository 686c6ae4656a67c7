import type { DesignCurrents } from '../analysis/index.ts';
import { pathBack, treeFrom } from '../analysis/paths.ts';
import type { Id } from '../plan/types.ts';

/**
 * What a fuse beside a store has to carry once the store alone feeds the converters behind it, A: their design current at
 * the least volts from which they still run. Solved at rest a store gives nothing, so the solver does not see it.
 */
export function storeAmps({ graph, elementHeatA }: DesignCurrents, loV: number): Map<Id, number> {
  const amps = new Map<Id, number>();
  for (const store of graph.views.values()) {
    if (!store.facts.sources?.some((s) => s.kind === 'store')) continue;
    const start = graph.indexOf.get(`${store.part.id}.+`);
    if (start === undefined) continue;
    const tree = treeFrom(graph, [start], () => 1);
    const here = new Map<Id, number>();
    for (const view of graph.views.values()) {
      const load = view.facts.loads?.[0];
      const node = load && view.facts.sources?.some((s) => s.kind === 'converter') ? graph.indexOf.get(`${view.part.id}.${load.plus}`) : undefined;
      const inA = elementHeatA.get(`${view.part.id}:conv:in`) ?? 0;
      if (!load || node === undefined || tree.via[node] === -1 || inA === 0) continue;
      const amp = (inA * loV) / Math.min(loV, load.minV ?? loV);
      for (const e of pathBack(graph, tree, node)) {
        const edge = graph.edges[e]!;
        if (edge.link?.type === 'fuse' && edge.view) here.set(edge.view.part.id, (here.get(edge.view.part.id) ?? 0) + amp);
      }
    }
    for (const [fuse, amp] of here) amps.set(fuse, Math.max(amps.get(fuse) ?? 0, amp));
  }
  return amps;
}
