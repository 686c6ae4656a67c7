import { smallestAreaMm2, smallestFuseA } from '../analysis/choose.ts';
import { loadedTogether } from '../analysis/figures.ts';
import { type Graph, nodeName } from '../analysis/graph.ts';
import type { DesignCurrents } from '../analysis/index.ts';
import { pathBack, treeFrom } from '../analysis/paths.ts';
import type { Ends } from '../analysis/protection.ts';
import { consumers } from '../analysis/returns.ts';
import type { NetNature } from '../analysis/roles.ts';
import type { Id, Wire } from '../plan/types.ts';
import { ohmPerM, TERMINATION_OHM } from '../trade/conductors.ts';
import { supplyCorners } from '../trade/supply.ts';
import { storeAmps } from './storeFuses.ts';

const INSULATION_C = 105;
/** Share of nominal that a vehicle-side feed may lose, go and return (3 %, common practice, no source); a little is kept back for joints that age. */
const FEED_BUDGET = 0.03 * 0.85;
/** Volts that may be lost between a converter and what it feeds, go and return, less the contacts. */
const RAIL5_BUDGET_V = 0.15 - 0.04;
/** Power pair of the heavier ready-made USB cables, AWG 20, mm²: thicker ones are not made, however much they lose. */
const USB_MM2 = 0.5;
/** Where joints and sizes that are given take most of a budget, the other wires still get this share of it: no thickness of theirs makes up for that. */
const LEAST_FOR_WIRES = 0.3;

/** Insulation class that leaves 10 K above the hottest zone crossed (common practice, no source). */
export function insulationFor(zoneC: number): number {
  return zoneC + 10 <= INSULATION_C ? INSULATION_C : 125;
}

export interface FuseChoice {
  readonly ratingA: number;
  readonly reason: string;
}

/** Smallest blade fuse that holds the design current, for every fuse whose rating is not typed. */
export function chooseFuses(currents: DesignCurrents): Map<Id, FuseChoice> {
  const choices = new Map<Id, FuseChoice>();
  const { systemV, dipLevel } = currents.graph.plan.vehicle;
  const stores = storeAmps(currents, supplyCorners(systemV, dipLevel).loV);
  for (const view of currents.graph.views.values()) {
    if (view.kind.kind !== 'blade-fuse' || view.s.typed('ratingA')) continue;
    const fromStoreA = stores.get(view.part.id) ?? 0;
    const heatA = Math.max(currents.elementHeatA.get(`${view.part.id}:fuse`) ?? 0, fromStoreA);
    const ratingA = smallestFuseA(heatA, view.runningMaxC) ?? 40;
    choices.set(view.part.id, {
      ratingA,
      reason:
        heatA < 0.001
          ? 'smallest fuse: next to nothing flows here yet'
          : `smallest that holds ${heatA.toFixed(2)} A${heatA === fromStoreA ? ' out of the store' : ''} at ${view.runningMaxC} °C, at most 75 % loaded`,
    });
  }
  return choices;
}

export interface SizeChoice {
  readonly areaMm2: number;
  readonly reason: string;
}

/** Sizes are chosen anew until the number of loaded wires in each bundle is that of the chosen sizes. */
const MOST_PASSES = 6;

/**
 * Least stocked conductor for every wire whose size is not typed: carries the design current and whatever protects it,
 * keeps its share of the drop, and is no thinner than one would use there.
 * @param graph of the plan with fuses chosen
 * @param endsOf what can flow into the ends of each wire
 */
export function chooseSizes(graph: Graph, endsOf: (edge: number) => Ends, design: DesignCurrents): Map<Id, SizeChoice> {
  const { basics, natures } = design;
  const budget = dropBudgets(graph, design, natures);
  const heatA = (id: Id): number => design.wireHeatA.get(id) ?? 0;
  const free = new Map<Id, number>();
  graph.edges.forEach(({ wire }, e) => {
    if (wire && wire.areaMm2 === undefined && wire.owner !== 'vehicle' && !free.has(wire.id)) free.set(wire.id, e);
  });
  const choices = new Map<Id, SizeChoice>();
  const areaOf = (wire: Wire): number => wire.areaMm2 ?? choices.get(wire.id)?.areaMm2 ?? 1;
  let before: ReadonlyMap<Id, number> = new Map();
  let grew = true;
  for (let pass = 0; grew && pass < MOST_PASSES; pass++) {
    const together = loadedTogether(graph, basics, heatA, areaOf);
    grew = false;
    for (const [id, e] of free) {
      if (together.get(id) === before.get(id)) continue;
      const wire = graph.edges[e]!.wire!;
      const { zoneMaxC, zones } = basics.get(id)!;
      const guard = guardA(graph, e, endsOf(e));
      const amp = Math.max(heatA(id), Number.isFinite(guard) ? guard : 0);
      const chosen = smallestAreaMm2({
        amp,
        insulationC: wire.insulationC ?? insulationFor(zoneMaxC),
        zoneC: zoneMaxC,
        loadedWires: together.get(id) ?? 1,
        maxOhmPerM: budget.get(id) ?? Number.POSITIVE_INFINITY,
        leastMm2: leastMm2(graph, wire, natures[graph.net[graph.edges[e]!.a]!]!, zones.length > 1),
      });
      if (chosen.areaMm2 <= (choices.get(id)?.areaMm2 ?? 0)) continue;
      choices.set(id, { areaMm2: chosen.areaMm2, reason: sizeReason(chosen.because, amp, guard, zoneMaxC) });
      grew = true;
    }
    before = together;
  }
  return choices;
}

function sizeReason(because: 'current' | 'drop' | 'strength', amp: number, guard: number, zoneC: number): string {
  if (because === 'drop') return 'least size that keeps the voltage drop in its budget';
  if (because === 'strength') return 'least size one would use here, for strength';
  return Number.isFinite(guard) && guard >= amp
    ? `least size that ${amp.toFixed(amp < 1 ? 2 : 1)} A of protection does not overload at ${zoneC} °C`
    : `least size that carries ${amp.toFixed(2)} A at ${zoneC} °C`;
}

/** What can flow for ever: the larger end; ahead of the first fuse, what that fuse will let pass. */
function guardA(graph: Graph, e: number, ends: { from: { maxA: number }; to: { maxA: number } }): number {
  const greatest = Math.max(ends.from.maxA, ends.to.maxA);
  if (greatest !== Number.POSITIVE_INFINITY) return greatest;
  const edge = graph.edges[e]!;
  let rating = Number.POSITIVE_INFINITY;
  for (const node of graph.netNodes[graph.net[edge.a]!]!) {
    for (const x of graph.at[node]!) {
      const link = graph.edges[x]!.link;
      if (link?.type === 'fuse') rating = Math.min(rating, link.ratingA ?? Number.POSITIVE_INFINITY);
    }
  }
  return rating;
}

function isUsb(graph: Graph, { from }: Wire): boolean {
  return graph.views.get(from.part)?.terminals.find((t) => t.id === from.terminal)?.form === 'usb';
}

function leastMm2(graph: Graph, wire: Wire, nature: NetNature, leavesZone: boolean): number {
  if (isUsb(graph, wire)) return USB_MM2;
  if (nature.role === 'supply') return 0.5;
  if (nature.role === 'signal' || nature.role === 'audio' || nature.role === 'video' || nature.role === 'rail3') return leavesZone ? 0.35 : 0.22;
  return leavesZone ? 0.5 : 0.22;
}

/**
 * Largest resistance per metre for the wires on the way to each consumer and back. Each loses its share by length and by the root
 * of its current: so shared, a drop takes the least copper (Lagrange: area goes as the root of the current), and a thin lead
 * behind one that many share need not be as thick as it.
 */
function dropBudgets(graph: Graph, currents: DesignCurrents, natures: readonly NetNature[]): Map<Id, number> {
  const lengthOf = (wire: Wire | null): number => (wire && currents.basics.get(wire.id)?.lengthM) || 0;
  const edgeLength = (e: number): number => lengthOf(graph.edges[e]!.wire);
  const feeds: number[] = [];
  const grounds: number[] = [];
  const returns: number[] = [];
  graph.nodes.forEach((name, n) => {
    if (name === '0' || name.startsWith('chassis:')) grounds.push(n);
  });
  for (const view of graph.views.values()) {
    for (const s of view.facts.sources ?? []) {
      if (s.kind === 'pin' || s.kind === 'audio') continue;
      const node = graph.indexOf.get(nodeName(view, s.terminal));
      if (node !== undefined) feeds.push(node);
      if (s.kind !== 'converter') continue;
      const back = graph.indexOf.get(nodeName(view, s.returns));
      if (back !== undefined) returns.push(back);
    }
  }
  const feed = treeFrom(graph, feeds, edgeLength);
  // What a converter feeds comes home to it; what the vehicle feeds, the converter too, to the body.
  const toBody = treeFrom(graph, grounds, edgeLength);
  const toConverter = treeFrom(graph, [...grounds, ...returns], edgeLength);
  const budgets = new Map<Id, number>();
  const peakA = currents.wirePeakA();
  for (const c of consumers(graph)) {
    const out = pathBack(graph, feed, c.plus);
    const nominalV = natures[graph.net[c.plus]!]!.nominalV ?? 0;
    const isVehicles = nominalV > 6;
    const path = [...out, ...pathBack(graph, isVehicles ? toBody : toConverter, c.minus)];
    // A return is sized for the whole current of its load: what a screen or a second ground carries today may be gone tomorrow.
    const lastWire = out.map((e) => graph.edges[e]!.wire).find((w) => w !== null);
    const ownA = lastWire ? (peakA.get(lastWire.id) ?? 0) : 0;
    const ampOf = (wire: Wire): number => Math.max(ownA, peakA.get(wire.id) ?? 0);
    const wires = path.flatMap((e) => graph.edges[e]!.wire ?? []);
    const sum = (of: (w: Wire) => number): number => wires.reduce((all, w) => all + of(w), 0);
    const crimpsV = sum((w) => ampOf(w) * 2 * TERMINATION_OHM.crimp);
    // A size that is given loses what it loses: the others share the rest.
    const givenMm2 = (w: Wire): number | undefined => w.areaMm2 ?? (isUsb(graph, w) ? USB_MM2 : undefined);
    const givenV = sum((w) => {
      const mm2 = givenMm2(w);
      return mm2 === undefined ? 0 : ampOf(w) * lengthOf(w) * ohmPerM(mm2, currents.basics.get(w.id)?.zoneMaxC ?? 20);
    });
    const weight = sum((w) => (givenMm2(w) === undefined ? lengthOf(w) * Math.sqrt(ampOf(w)) : 0));
    const [wholeV, takenV] = isVehicles ? [FEED_BUDGET * nominalV, crimpsV + givenV] : [nominalV > 4 ? RAIL5_BUDGET_V : Number.POSITIVE_INFINITY, givenV];
    const volts = Math.max(wholeV - takenV, LEAST_FOR_WIRES * wholeV);
    for (const e of path) {
      const wire = graph.edges[e]!.wire;
      const amp = wire ? ampOf(wire) : 0;
      if (!wire || amp <= 1e-6 || weight === 0 || givenMm2(wire) !== undefined) continue;
      budgets.set(wire.id, Math.min(budgets.get(wire.id) ?? Number.POSITIVE_INFINITY, volts / (Math.sqrt(amp) * weight)));
    }
  }
  return budgets;
}
