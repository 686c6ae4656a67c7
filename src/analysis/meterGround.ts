import type { Id, Plan } from '../plan/types.ts';
import type { PartView, TerminalKey } from './factsTypes.ts';
import { buildGraph, type Graph, nodeName, other } from './graph.ts';
import { type NetRole, natures, splitKey } from './roles.ts';
import type { Analysis, Reading } from './types.ts';

/** Where a fitter holds the black probe: on the 0 V terminal of a part. */
export interface MeterGround {
  readonly part: Id;
  readonly key: TerminalKey;
}

/** Nets that are measured against the 0 V of what makes or takes them; supply and ground against battery negative. */
const LOCAL: ReadonlySet<NetRole> = new Set(['rail5', 'rail3', 'signal', 'usb', 'audio', 'video']);
/** What stands in line with a signal or rail: behind it, the same 0 V counts. */
const IN_LINE: ReadonlySet<string> = new Set(['join', 'fuse', 'contact', 'diode', 'conductor', 'resistor']);

/**
 * The 0 V terminal that volts of a terminal are measured against: of its own plug, else of the nearest part along its net
 * (and through what stands in line) that makes or takes these volts. Null = battery negative.
 */
export type MeterGrounds = (key: TerminalKey) => MeterGround | null;

const cache = new WeakMap<Plan, MeterGrounds>();

/** Kept by identity of the filled plan. */
export function meterGrounds(filled: Plan): MeterGrounds {
  let found = cache.get(filled);
  if (!found) {
    found = grounds(buildGraph(filled));
    cache.set(filled, found);
  }
  return found;
}

/** Volts as a meter there reads them, and against what; NaN = floating, dead or not computed. */
export function meterVolts(
  filled: Plan,
  analysis: Analysis,
  reading: Reading | null,
  key: TerminalKey,
): { readonly v: number; readonly ground: MeterGround | null } {
  if (reading?.status !== 'solved') return { v: Number.NaN, ground: null };
  const at = places(analysis);
  const v = reading.terminalV[at.get(key) ?? -1] ?? Number.NaN;
  const ground = meterGrounds(filled)(key);
  const zero = ground ? (reading.terminalV[at.get(ground.key) ?? -1] ?? Number.NaN) : 0;
  // A 0 V that hangs in the air is no place for a probe.
  return Number.isNaN(zero) ? { v, ground: null } : { v: v - zero, ground };
}

const placesOf = new WeakMap<Analysis, ReadonlyMap<TerminalKey, number>>();

function places(analysis: Analysis): ReadonlyMap<TerminalKey, number> {
  let found = placesOf.get(analysis);
  if (!found) {
    found = new Map(analysis.index.terminals.map((t, i) => [t, i]));
    placesOf.set(analysis, found);
  }
  return found;
}

function grounds(graph: Graph): MeterGrounds {
  const nets = natures(graph);
  const role = (node: number): NetRole => nets[graph.net[node]!]!.role;
  const known = new Map<TerminalKey, MeterGround | null>();
  return (key) => {
    let found = known.get(key);
    if (found === undefined) {
      const node = graph.indexOf.get(key);
      found = node === undefined || !LOCAL.has(role(node)) ? null : nearest(graph, node, role);
      known.set(key, found);
    }
    return found;
  };
}

function nearest(graph: Graph, start: number, role: (node: number) => NetRole): MeterGround | null {
  const seen = new Set([start]);
  const queue = [start];
  for (let q = 0; q < queue.length; q++) {
    const node = queue[q]!;
    const [part, terminal] = splitKey(graph.nodes[node]!);
    const view = graph.views.get(part);
    const zero = view ? zeroOf(graph, view, terminal) : undefined;
    if (view && zero !== undefined) return zero === '@0' ? null : { part, key: nodeName(view, zero) };
    for (const e of graph.at[node]!) {
      const edge = graph.edges[e]!;
      if (edge.link && !IN_LINE.has(edge.link.type)) continue;
      const next = other(edge, node);
      // Behind the resistor of a sensed vehicle line the vehicle begins, and with it battery negative.
      if (seen.has(next) || role(next) === 'ground' || role(next) === 'supply') continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return null;
}

/** The 0 V that a part itself has for one of its terminals; undefined when it has none. */
function zeroOf(graph: Graph, view: PartView, terminal: string): string | undefined {
  const { sources = [], loads = [] } = view.facts;
  const source = sources.find((s) => s.terminal === terminal && s.kind !== 'store');
  if (source) return source.returns;
  const load = loads.find((l) => l.plus === terminal);
  if (load) return load.minus;
  const def = view.terminals.find((t) => t.id === terminal);
  if (!def || def.role === 'ground' || def.role === 'any') return undefined;
  if (graph.indexOf.has(`${view.part.id}.${terminal}~0`)) return `${terminal}~0`;
  return loads[0]?.minus;
}
