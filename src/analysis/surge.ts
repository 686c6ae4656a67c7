import type { supplyCorners } from '../trade/supply.ts';
import type { PartView } from './factsTypes.ts';
import { type Graph, nodeName, other } from './graph.ts';

type Corners = ReturnType<typeof supplyCorners>;

/**
 * Voltage that a vehicle-side net sees in a load dump: the level of a clamp that stands after a fuse on the same
 * rail, passes the jump-start test and can take the energy; the cut-off of a series guard ahead; else the dump itself, which
 * is the unclamped one when the vehicle is not known to clamp inside its alternator (ISO 16750-2 tests A and B).
 */
export function seenSurge(graph: Graph, node: number, corners: Corners): number {
  const dumpV = dumpOf(graph, corners);
  if (node === -1) return dumpV;
  let least = dumpV;
  for (const clamp of clampsOn(graph, node)) {
    const v = clampLevel(clamp, dumpV, corners);
    if (v !== null && v < least) least = v;
  }
  return least;
}

/** The dump to design for. */
export function dumpOf(graph: Graph, corners: Corners): number {
  return graph.plan.vehicle.centralClamping === 'yes' ? corners.dumpClampedV : corners.dumpUnclampedV;
}

/**
 * Level at which a clamp holds the net, V, or null when it fails its own tests: it must not conduct in a jump start
 * and must survive the energy E = (V_dump - V_BR) / R_i x V_BR x t_d.
 */
export function clampLevel(view: PartView, dumpV: number, corners: Corners): number | null {
  const standoffV = view.s.num('standoffV');
  const brMinV = view.s.num('brMinV');
  if (standoffV < Math.max(corners.jumpV, corners.hiV)) return null;
  if (dumpV <= brMinV) return dumpV;
  if (clampEnergyJ(view, dumpV, corners) > view.s.num('energyJ')) return null;
  const slopeOhm = (view.s.num('clampV') - view.s.num('brMaxV')) / view.s.num('peakA');
  const amp = (dumpV - view.s.num('brMaxV')) / (corners.dumpOhm + slopeOhm);
  return view.s.num('brMaxV') + slopeOhm * Math.max(0, amp);
}

/** Energy that a clamp must take in the dump, J: zero when the dump stays below its breakdown. */
export function clampEnergyJ(view: PartView, dumpV: number, corners: Corners): number {
  const brMinV = view.s.num('brMinV');
  return dumpV <= brMinV ? 0 : ((dumpV - brMinV) / corners.dumpOhm) * brMinV * corners.dumpS;
}

const SAME_RAIL: ReadonlySet<string> = new Set(['join', 'fuse', 'contact', 'conductor', 'diode']);

/** Clamps on the same rail as a node. */
function clampsOn(graph: Graph, start: number): PartView[] {
  const seen = new Set([start]);
  const queue = [start];
  const clamps = new Set<PartView>();
  for (let q = 0; q < queue.length; q++) {
    for (const e of graph.at[queue[q]!]!) {
      const edge = graph.edges[e]!;
      if (edge.link?.type === 'clamp' && edge.view?.kind.kind === 'surge-clamp') {
        if (graph.indexOf.get(nodeName(edge.view, 'K')) === queue[q]) clamps.add(edge.view);
        continue;
      }
      if (edge.link && !SAME_RAIL.has(edge.link.type)) continue;
      const next = other(edge, queue[q]!);
      const name = graph.nodes[next]!;
      if (seen.has(next) || name === '0' || name.startsWith('chassis:')) continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return [...clamps];
}
