import type { SourceFact } from '../parts/types.ts';
import { gather } from '../plan/gather.ts';
import type { Band, Id, Plan, VehicleState } from '../plan/types.ts';
import { supplyCorners } from '../trade/supply.ts';
import type { Facts, PartView, Step, TerminalKey } from './factsTypes.ts';
import { wireBasics } from './figures.ts';
import { buildGraph, type Graph, nodeName, other } from './graph.ts';
import type { Groundwork } from './index.ts';
import { lookups } from './lookups.ts';
import { memo } from './memo.ts';
import { reach } from './reach.ts';
import { natures, splitKey } from './roles.ts';
import { seenSurge } from './surge.ts';
import type { Analysis, Reading } from './types.ts';

/**
 * All that rules may ask about one filled plan and its analysis. Cheap to make: the graph is built anew when the
 * groundwork of the analysis is not at hand (in the page, for repairs).
 */
export function makeFacts(plan: Plan, analysis: Analysis, groundwork?: Pick<Groundwork, 'graph' | 'natures' | 'basics'>): Facts {
  const graph = groundwork?.graph ?? buildGraph(plan);
  const nature = groundwork?.natures ?? natures(graph);
  const basics = groundwork?.basics ?? wireBasics(graph);
  const at = lookups(analysis);
  const node = (key: TerminalKey): number => graph.indexOf.get(key) ?? -1;
  const readingOf: Readonly<Record<Band, Map<VehicleState, Reading>>> = { low: new Map(), typical: new Map(), high: new Map() };
  for (const r of analysis.readings) readingOf[r.band].set(r.state, r);
  // A state that this vehicle has not is not computed, whatever else is.
  const reading = (state: VehicleState, band: Band): Reading => readingOf[band].get(state) ?? { ...analysis.readings[0]!, state, band, status: 'not computed' };
  const kinds = new Map<string, PartView[]>();
  for (const v of graph.views.values()) gather(kinds, v.kind.kind, v);
  const isGround = (net: number): boolean => nature[net]?.role === 'ground';
  const feeding = sourceFinder(graph, isGround);
  const netOf = (key: TerminalKey): number => graph.net[node(key)] ?? -1;
  // Asked for again and again: found by the two names, no key has to be put together.
  const terminalNets = new Map<Id, Map<string, number>>();
  const netAt = (part: Id, terminal: string): number => {
    let own = terminalNets.get(part);
    if (!own) {
      own = new Map();
      terminalNets.set(part, own);
    }
    let net = own.get(terminal);
    if (net === undefined) {
      net = netOf(`${part}.${terminal}`);
      own.set(terminal, net);
    }
    return net;
  };
  const joinedTo = memo((key: TerminalKey): readonly TerminalKey[] => netTerminals(netOf(key)).filter((other) => other !== key));
  const netTerminals = memo((net: number) => (graph.netNodes[net] ?? []).map((n) => graph.nodes[n]!));
  const netWires = memo((net: number) => {
    const found = new Set<Id>();
    for (const n of graph.netNodes[net] ?? []) for (const e of graph.at[n]!) if (graph.edges[e]!.wire) found.add(graph.edges[e]!.wire!.id);
    return [...found].map((id) => plan.wires[id]!);
  });
  const surgeOf = memo((net: number) => seenSurge(graph, graph.netNodes[net]?.[0] ?? -1, corners));
  const ways = new Map<TerminalKey, { readonly through: readonly string[]; readonly found: ReadonlyMap<TerminalKey, readonly Step[]> }[]>();
  const atKey = memo((key: TerminalKey): ReturnType<Facts['at']> => {
    const [part, terminal] = splitKey(key);
    const view = graph.views.get(part);
    const id = terminal.replace('~0', '');
    const def = view?.terminals.find((t) => t.id === id);
    return view && def ? { view, terminal: def } : null;
  });
  const corners = supplyCorners(plan.vehicle.systemV, plan.vehicle.dipLevel);

  const across = (plus: TerminalKey, minus: TerminalKey, r: Reading): number | null => {
    const v = at.volts(r, plus);
    const w = at.volts(r, minus);
    return v === null || w === null ? null : v - w;
  };
  const facts: Facts = {
    plan,
    analysis,
    parts: graph.views,
    ofKind: (...names) => (names.length === 1 ? (kinds.get(names[0]!) ?? NO_PARTS) : names.flatMap((n) => kinds.get(n) ?? NO_PARTS)),
    netOf,
    netAt,
    netTerminals,
    netWires,
    joinedTo,
    isWired: (key) => graph.at[node(key)]?.some((e) => graph.edges[e]!.wire !== null) ?? false,
    at: atKey,
    reach: (from, through, avoid) => {
      if (avoid) return reach(graph, node(from), { through, avoid });
      const asked = ways.get(from) ?? [];
      const known = asked.find((w) => w.through.length === through.length && w.through.every((type, i) => type === through[i]));
      if (known) return known.found;
      const found = reach(graph, node(from), { through });
      ways.set(from, [...asked, { through: [...through], found }]);
      return found;
    },
    way: (from, to, through) => reach(graph, node(from), { through, until: node(to) }).get(to) ?? null,
    nominalV: (net) => nature[net]?.nominalV ?? null,
    isGround,
    sourcesFor: (key) => feeding(node(key)),
    wireLengthM: (id) => basics.get(id)?.lengthM ?? 0,
    reading,
    volts: (key, state, band) => at.volts(reading(state, band), key),
    across: (plus, minus, state, band) => across(plus, minus, reading(state, band)),
    wireA: (id, state, band) => at.wire(reading(state, band), id),
    elementA: (part, element, state, band, port) => at.element(reading(state, band), part, element, port),
    deviceOn: (part, device, state, band) => at.device(reading(state, band), part, device),
    solved: analysis.readings.filter((r) => r.status === 'solved'),
    designWireA: (id) => at.wire(analysis.design, id),
    designAcross: (plus, minus) => across(plus, minus, analysis.design),
    designElementA: (part, element, port) => at.element(analysis.design, part, element, port),
    loads: [...graph.views.values()].flatMap((view) => (view.facts.loads ?? []).map((load) => ({ view, load }))),
    corners,
    seenSurgeV: (key) => surgeOf(netOf(key)),
    threshold: (key, fallback) => plan.thresholds[key] ?? fallback,
  };
  return facts;
}

const NO_PARTS: readonly PartView[] = [];

const PASSES: ReadonlySet<string> = new Set(['join', 'fuse', 'contact', 'diode', 'conductor', 'resistor']);

type Feeding = ReturnType<Facts['sourcesFor']>;

/** Which sources can send current to a node, in the order of the parts. */
function sourceFinder(graph: Graph, isGround: (net: number) => boolean): (node: number) => Feeding {
  const list: { view: PartView; source: SourceFact; node: number }[] = [];
  for (const view of graph.views.values()) {
    for (const source of view.facts.sources ?? []) {
      const node = graph.indexOf.get(nodeName(view, source.terminal));
      if (node !== undefined) list.push({ view, source, node });
    }
  }
  const at = new Map<number, number[]>();
  for (const [i, { node }] of list.entries()) gather(at, node, i);
  // All nodes of a net are fed alike.
  const ofNet = memo((net: number): Feeding => {
    const found = [...reachBack(graph, net, isGround)].flatMap((node) => at.get(node) ?? []);
    return found.sort((a, b) => a - b).map((i) => ({ view: list[i]!.view, source: list[i]!.source }));
  });
  return (node) => (node === -1 ? [] : ofNet(graph.net[node]!));
}

/** Nodes from which current can come to a net: against diodes' direction, and never out of another ground net. */
function reachBack(graph: Graph, net: number, isGround: (net: number) => boolean): ReadonlySet<number> {
  const seen = new Set(graph.netNodes[net]!);
  const queue = [...seen];
  for (let q = 0; q < queue.length; q++) {
    for (const e of graph.at[queue[q]!]!) {
      const edge = graph.edges[e]!;
      if (edge.link && !PASSES.has(edge.link.type)) continue;
      if (edge.link?.type === 'diode' && edge.b !== queue[q]) continue;
      const next = other(edge, queue[q]!);
      if (seen.has(next) || (graph.net[next] !== net && isGround(graph.net[next]!))) continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return seen;
}
