import type { Link } from '../parts/types.ts';
import { gather } from '../plan/gather.ts';
import { type Graph, nodeName } from './graph.ts';

/** More ways than this of standing together are not told apart: the changeovers beyond count as closed both ways. */
const MOST_WAYS = 32;

/**
 * The ways in which the changeover contacts of a plan can stand, as tests of an edge's link: one contact of each group is
 * closed at a time. Only changeovers with both throws wired matter; without any there is one way, all contacts closed.
 */
export function contactWays(graph: Graph): ((link: Link) => boolean)[] {
  const wired = (node: string): boolean => {
    const n = graph.indexOf.get(node);
    return n !== undefined && graph.at[n]!.some((e) => graph.edges[e]!.wire !== null);
  };
  let ways: ReadonlySet<Link>[] = [new Set()];
  for (const view of graph.views.values()) {
    const groups = new Map<string, Link[]>();
    for (const link of view.facts.links ?? []) {
      if (link.type !== 'contact' || link.group === undefined) continue;
      if (wired(nodeName(view, link.a)) && wired(nodeName(view, link.b))) gather(groups, link.group, link);
    }
    for (const links of groups.values()) {
      if (links.length < 2 || ways.length * links.length > MOST_WAYS) continue;
      ways = ways.flatMap((open) => links.map((closed) => new Set([...open, ...links.filter((l) => l !== closed)])));
    }
  }
  return ways.map((open) => (link) => !open.has(link));
}
