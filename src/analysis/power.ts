import { allFlows, type Network } from '../circuit/index.ts';
import type { Element, Settled } from '../circuit/types.ts';
import type { Id } from '../plan/types.ts';
import { parkedDays, selfDischargeA } from '../trade/battery.ts';
import type { Graph } from './graph.ts';
import { isComputed } from './readings.ts';
import { KEY_POSITIONS, type LoadRow, type ParkedReport } from './types.ts';

/** Power taken up in one settled network, W; what a source gives counts as negative. */
export interface PartWatts {
  readonly of: ReadonlyMap<Id, number>;
  /** What comes from the battery’s posts: all that parts, wires and body joints use, less what other sources give. */
  readonly usedW: number;
}

/** What is not computed is null. */
export function partWatts(network: Network, elements: readonly Element[], settled: Settled): PartWatts | null {
  if (!isComputed(settled)) return null;
  const { watt } = allFlows(network, elements, settled.solution);
  const owners = ownersOf(network, elements);
  const of = new Map<Id, number>();
  let usedW = 0;
  for (let k = 0; k < elements.length; k++) {
    const e = elements[k]!;
    if (e.kind !== 'source' || e.a !== 'battery') usedW += watt[k]!;
    const part = owners[k]!;
    if (part !== null) of.set(part, (of.get(part) ?? 0) + watt[k]!);
  }
  return { of, usedW };
}

const ownerLists = new WeakMap<Network, readonly (Id | null)[]>();

/** The part that each element of a network belongs to; null for wires and the body. */
function ownersOf(network: Network, elements: readonly Element[]): readonly (Id | null)[] {
  let owners = ownerLists.get(network);
  if (!owners) {
    owners = elements.map((e) => {
      const colon = e.id.indexOf(':');
      return colon > 0 ? e.id.slice(0, colon) : null;
    });
    ownerLists.set(network, owners);
  }
  return owners;
}

/** What fuses and contacts lose on the way is no draw worth a line, A and share of the whole. */
const LEAST_SHARE_A = 1e-6;
const LEAST_SHARE = 0.01;
/** More than this empties any battery at once, A. */
const MOST_A = 1000;

/**
 * What the parked build adds, who draws it, and how long the battery lasts (0.40 Ah / total, from 90 % to 50 % charge).
 * NaN throughout when the parked state could not be computed.
 */
export function parkedReport(graph: Graph, watts: PartWatts | null, supplyV: number): ParkedReport {
  const { vehicle } = graph.plan;
  const middle = fromMiddle(graph, watts);
  const usedW = Math.max(0, (watts?.usedW ?? 0) + middle.watt);
  // One battery alone gives what is drawn from the middle: amp for amp, not half of them.
  const times = usedW > 0 ? (usedW + middle.aloneW) / usedW : 1;
  const buildA = watts ? (supplyV > 0 ? (times * usedW) / supplyV : 0) : Number.NaN;
  const shares = [...graph.views.values()]
    .filter((view) => view.kind.owner !== 'vehicle')
    .map((view) => ({ part: view.part.id, name: view.name, amp: supplyV > 0 ? (times * Math.max(0, watts?.of.get(view.part.id) ?? 0)) / supplyV : 0 }))
    .filter((s) => s.amp > Math.max(LEAST_SHARE_A, LEAST_SHARE * buildA))
    .sort((a, b) => b.amp - a.amp);
  const selfA = selfDischargeA(vehicle.batteryAh, vehicle.parkedC);
  const daysAt = (amp: number): number => (Number.isNaN(amp) ? amp : parkedDays(vehicle.batteryAh, Math.min(MOST_A, amp)));
  return {
    buildA,
    vehicleA: vehicle.parkedA,
    selfA,
    days: daysAt(vehicle.parkedA + selfA + buildA),
    daysWithout: daysAt(vehicle.parkedA + selfA),
    shares,
  };
}

/**
 * What leads from the middle of a pair give, W: out of a battery as well, though past the posts of the pair; and how much of it where
 * no equaliser shares it.
 */
function fromMiddle(graph: Graph, watts: PartWatts | null): { readonly watt: number; readonly aloneW: number } {
  let watt = 0;
  let aloneW = 0;
  for (const view of graph.views.values()) {
    const half = view.facts.sources?.find((s) => s.half);
    if (!half) continue;
    const given = -(watts?.of.get(view.part.id) ?? 0);
    watt += given;
    if (half.half === 'alone') aloneW += Math.max(0, given);
  }
  return { watt, aloneW };
}

/** One row for every part that takes power for its own work, at each key position; NaN where a position could not be computed. */
export function loadRows(
  graph: Graph,
  wattsAt: readonly (PartWatts | null)[],
  voltsOf: (part: Id, plus: string, minus: string, key: number) => number,
): LoadRow[] {
  const rows: LoadRow[] = [];
  for (const view of graph.views.values()) {
    const load = view.facts.loads?.[0];
    if (!load || (view.facts.sources ?? []).some((s) => s.kind === 'converter')) continue;
    const watts = KEY_POSITIONS.map((_, k) => {
      const at = wattsAt[k];
      return at ? Math.max(0, at.of.get(view.part.id) ?? 0) : Number.NaN;
    });
    rows.push({
      part: view.part.id,
      name: view.name,
      nominalV: load.nominalV,
      peakA: load.peakA,
      heatA: load.heatA,
      watts,
      amps: watts.map((w, k) => {
        const v = voltsOf(view.part.id, load.plus, load.minus, k);
        return Number.isNaN(w) || v > 0.1 ? w / v : 0;
      }),
    });
  }
  return rows;
}
