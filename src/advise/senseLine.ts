import type { PartView } from '../analysis/factsTypes.ts';
import { type Graph, other } from '../analysis/graph.ts';
import { splitKey } from '../analysis/roles.ts';
import type { Line } from '../plan/types.ts';

/** Lines that tell of the key, best first; then what is not known; lamps and what is always live tell nothing of it. */
const RANK: Readonly<Partial<Record<Line, number>>> = { '15': 0, '75': 1, '75r': 2 };
const UNKNOWN = 3;
const NO_KEY = 4;
/** Links that a sensed line does not come through. */
const NO_WAY: ReadonlySet<string> = new Set(['clamp', 'capacitor', 'coil']);

/** How well the LED of an optocoupler tells of the key, by the vehicle's line that lights it: 0 is best. */
export function senseRank(graph: Graph, opto: PartView): number {
  const start = graph.indexOf.get(`${opto.part.id}.A`);
  let best = UNKNOWN;
  let known = false;
  const seen = new Set(start === undefined ? [] : [start]);
  for (const node of seen) {
    for (const e of graph.at[node]!) {
      const edge = graph.edges[e]!;
      const next = other(edge, node);
      const name = graph.nodes[next]!;
      if (seen.has(next) || edge.view === opto || (edge.link && NO_WAY.has(edge.link.type)) || name === '0' || name.startsWith('chassis:')) continue;
      const tap = graph.views.get(splitKey(name)[0])?.facts.tap;
      if (tap) {
        const rank = RANK[tap.line] ?? NO_KEY;
        best = known ? Math.min(best, rank) : rank;
        known = true;
        continue;
      }
      seen.add(next);
    }
  }
  return best;
}
