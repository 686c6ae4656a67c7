import type { Id } from '../../plan/types.ts';
import type { PartView } from '../factsTypes.ts';
import { type Graph, isGroundNode, nodeName, other } from '../graph.ts';

/** Ways that supply current does not take. */
const NO_WAY: ReadonlySet<string> = new Set(['coil', 'capacitor', 'clamp']);

/** Every part that the supply of a load may come through, backwards from its plus terminal to the vehicle's leads. */
export function feedPath(graph: Graph, load: PartView): ReadonlySet<Id> {
  const plus = load.facts.loads?.[0]?.plus;
  const path = new Set<Id>();
  if (plus === undefined) return path;
  const grounds = new Set(graph.nodes.flatMap((n, i) => (isGroundNode(n) ? [graph.net[i]!] : [])));
  const seen = new Set<number>();
  const queue: number[] = [];
  const visit = (node: number | undefined): void => {
    if (node === undefined || seen.has(node) || grounds.has(graph.net[node]!)) return;
    seen.add(node);
    queue.push(node);
  };
  visit(graph.indexOf.get(nodeName(load, plus)));
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    const name = graph.nodes[node]!;
    const view = graph.views.get(name.slice(0, name.indexOf('.')));
    if (view && view !== load) {
      const source = view.facts.sources?.find((s) => nodeName(view, s.terminal) === name && s.kind !== 'battery');
      if (source) {
        path.add(view.part.id);
        const input = source.kind === 'converter' ? view.facts.loads?.[0]?.plus : undefined;
        if (input !== undefined) visit(graph.indexOf.get(nodeName(view, input)));
      }
    }
    for (const k of graph.at[node]!) {
      const edge = graph.edges[k]!;
      if (edge.view === load || (edge.link && NO_WAY.has(edge.link.type))) continue;
      if (edge.view) path.add(edge.view.part.id);
      visit(other(edge, node));
    }
  }
  return path;
}
