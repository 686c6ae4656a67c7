import type { Id } from '../plan/types.ts';
import { coldOhmPerM } from '../trade/conductors.ts';
import { coldOhm, LOADING, tempFactor } from '../trade/fuses.ts';
import { supplyCorners } from '../trade/supply.ts';
import type { WireBasics } from './figures.ts';
import { type Graph, nodeName, other } from './graph.ts';
import { type WireFigures, wireOhm } from './network.ts';
import { pathBack, type Tree, treeFrom } from './paths.ts';
import { consumers } from './returns.ts';
import type { FuseReport, Reading, ReadingIndex } from './types.ts';

const CONTACT_OHM = 0.005;

/** Ways from the sources to everything and from ground to everything, by hot resistance and by cold. */
export interface FaultPaths {
  readonly roots: ReadonlyMap<number, { maxOhm: number; minOhm: number; limited: boolean }>;
  readonly feed: Tree;
  readonly back: Tree;
  readonly ohmOf: (edge: number) => number;
}

/** Trees for prospective short-circuit currents: least = greatest source resistance and hot conductors. */
export function faultPaths(graph: Graph, figures: ReadonlyMap<Id, WireFigures>, basics: ReadonlyMap<Id, WireBasics>): FaultPaths {
  const ohmOf = (e: number): number => {
    const { wire, link } = graph.edges[e]!;
    if (wire) return wireOhm(graph, wire.id, figures.get(wire.id)!, basics.get(wire.id)!.zoneMaxC);
    if (link?.type === 'fuse') return coldOhm(link.ratingA ?? 5) * 1.3;
    return link?.type === 'join' ? 0 : (link?.ohm ?? CONTACT_OHM);
  };
  const roots = new Map<number, { maxOhm: number; minOhm: number; limited: boolean }>();
  for (const view of graph.views.values()) {
    for (const s of view.facts.sources ?? []) {
      const node = graph.indexOf.get(nodeName(view, s.terminal));
      if (node !== undefined && (s.kind === 'battery' || s.kind === 'feed' || s.kind === 'store')) {
        roots.set(node, { maxOhm: s.maxOhm, minOhm: s.minOhm, limited: s.limitA !== null });
      }
    }
  }
  const grounds = [...graph.indexOf].filter(([name]) => name === '0' || name.startsWith('chassis:')).map(([, n]) => n);
  return { roots, feed: treeFrom(graph, [...roots.keys()], ohmOf), back: treeFrom(graph, grounds, ohmOf), ohmOf };
}

/** Load, allowance, prospective currents and unprotected length of every fuse. */
export function fuseReports(
  graph: Graph,
  paths: FaultPaths,
  basics: ReadonlyMap<Id, WireBasics>,
  index: ReadingIndex,
  design: { readonly peak: Reading; readonly heat: Reading },
): Record<Id, FuseReport> {
  const { loV, restV } = supplyCorners(graph.plan.vehicle.systemV, graph.plan.vehicle.dipLevel);
  const elementAt = new Map(index.elements.map((e, i) => [e, i]));
  const reports: Record<Id, FuseReport> = {};
  const shorts = leastShorts(graph, paths, loV);
  for (let e = 0; e < graph.edges.length; e++) {
    const { link, view, a, b } = graph.edges[e]!;
    if (link?.type !== 'fuse' || !view) continue;
    const near = paths.feed.cost[a]! <= paths.feed.cost[b]! ? a : b;
    const root = paths.feed.root[near]!;
    const source = paths.roots.get(root);
    const at = elementAt.get(`${view.part.id}:fuse`);
    const short = shorts.get(view.part.id);
    const ratingA = link.ratingA ?? 5;
    const cold = coldLoop(graph, paths.feed, near, basics);
    const first = source !== undefined && !pathBack(graph, paths.feed, near).some((x) => graph.edges[x]!.link?.type === 'fuse');
    reports[view.part.id] = {
      part: view.part.id,
      ratingA,
      heatA: at === undefined ? 0 : Math.abs(design.heat.elementA[at]!) || 0,
      allowedA: LOADING * ratingA * tempFactor(view.runningMaxC),
      leastShortA: short?.amp ?? Number.POSITIVE_INFINITY,
      leastShortWire: short?.wire ?? null,
      greatestShortA: source ? restV / (source.minOhm + cold.ohm) : 0,
      unfusedM: first ? cold.lengthM : null,
    };
  }
  return reports;
}

/** Length and cold loop resistance from a node back to its source (go and return counted alike). */
function coldLoop(graph: Graph, feed: Tree, node: number, basics: ReadonlyMap<Id, WireBasics>): { ohm: number; lengthM: number } {
  let ohm = 0;
  let lengthM = 0;
  for (const e of pathBack(graph, feed, node)) {
    const { wire } = graph.edges[e]!;
    if (!wire || wire.owner === 'vehicle') continue;
    const length = basics.get(wire.id)!.lengthM;
    lengthM += length;
    ohm += 2 * length * coldOhmPerM(wire.areaMm2 ?? 1);
  }
  return { ohm: Math.max(ohm, 1e-3), lengthM };
}

/**
 * Per fuse, the smallest prospective current of a hard short at the end of what it guards (up to the next fuse):
 * lowest supply, greatest source resistance, hot conductors, back through the ground of the load there, or through as
 * much again as the feed where no load stands.
 */
function leastShorts(graph: Graph, paths: FaultPaths, loV: number): Map<Id, { amp: number; wire: Id | null }> {
  const groundOf = new Map<number, number>();
  for (const c of consumers(graph)) groundOf.set(c.plus, Math.max(groundOf.get(c.plus) ?? 0, paths.back.cost[c.minus]!));
  const least = new Map<Id, { amp: number; wire: Id | null }>();
  for (let node = 0; node < graph.nodes.length; node++) {
    const root = paths.feed.root[node]!;
    const source = paths.roots.get(root);
    if (!source || paths.feed.via[node] === -1) continue;
    let guard: Id | null = null;
    let wire: Id | null = null;
    let at = node;
    for (const e of pathBack(graph, paths.feed, node)) {
      const edge = graph.edges[e]!;
      if (edge.wire && wire === null) wire = edge.wire.id;
      if (edge.link?.type === 'fuse') {
        guard = edge.view!.part.id;
        break;
      }
      at = other(edge, at);
    }
    if (!guard || (wire === null && at === node)) continue;
    const out = paths.feed.cost[node]!;
    const back = groundOf.get(node);
    const amp = loV / (source.maxOhm + out + (back !== undefined && Number.isFinite(back) ? back : out));
    if (amp < (least.get(guard)?.amp ?? Number.POSITIVE_INFINITY)) least.set(guard, { amp, wire });
  }
  return least;
}
