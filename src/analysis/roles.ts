import type { TerminalDef } from '../parts/types.ts';
import { type Graph, nodeName, other } from './graph.ts';
import type { WireReport } from './types.ts';

export type NetRole = WireReport['role'];

export interface NetNature {
  readonly role: NetRole;
  /** Nominal volts: 0 ground, 12/24 supply, 5, 3.3; null where no rail is meant. */
  readonly nominalV: number | null;
}

/** Low series parts beyond which a rail keeps its name. */
const KEEPS_RAIL: ReadonlySet<string> = new Set(['join', 'fuse', 'contact', 'diode', 'conductor']);

/**
 * What each net is for. Ground grows from chassis bars and battery negative; rails grow from their sources through fuses,
 * contacts, diodes and chokes; what is left takes its role from the terminals on it.
 */
export function natures(graph: Graph): readonly NetNature[] {
  const found: (NetNature | null)[] = graph.netNodes.map(() => null);
  const system = graph.plan.vehicle.systemV;
  for (let node = 0; node < graph.nodes.length; node++) {
    const name = graph.nodes[node]!;
    if (name === '0' || name.startsWith('chassis:')) found[graph.net[node]!] = { role: 'ground', nominalV: 0 };
  }
  growGround(graph, found);
  const seeds: { node: number; nature: NetNature; rank: number }[] = [];
  for (const view of graph.views.values()) {
    for (const s of view.facts.sources ?? []) {
      const node = graph.indexOf.get(nodeName(view, s.terminal));
      if (node === undefined || s.kind === 'pin' || s.kind === 'audio') continue;
      const vehicle = s.kind === 'battery' || s.kind === 'feed';
      const nominalV = vehicle && !s.half ? system : s.nominalV;
      const role: NetRole = nominalV === 3.3 ? 'rail3' : nominalV >= 4.5 && nominalV <= 5.5 ? 'rail5' : 'supply';
      seeds.push({ node, nature: { role, nominalV: role === 'rail5' ? 5 : nominalV }, rank: vehicle ? 0 : s.kind === 'store' ? 2 : 1 });
    }
  }
  seeds.sort((a, b) => a.rank - b.rank);
  // A store takes the rail that fills it; only one that nothing fills is a rail of its own.
  growRails(
    graph,
    found,
    seeds.filter((s) => s.rank < 2),
  );
  growRails(
    graph,
    found,
    seeds.filter((s) => s.rank === 2),
  );
  return found.map((f, net) => f ?? fromTerminals(graph, net));
}

function growGround(graph: Graph, found: (NetNature | null)[]): void {
  for (const edge of graph.edges) {
    if (edge.view?.kind.kind !== 'chassis-ground') continue;
    for (const node of [edge.a, edge.b]) found[graph.net[node]!] = { role: 'ground', nominalV: 0 };
  }
  // A net with a ground terminal and no source is meant as ground, also before it reaches the chassis.
  const fed = new Set<number>();
  for (const view of graph.views.values()) {
    for (const s of view.facts.sources ?? []) {
      const node = graph.indexOf.get(nodeName(view, s.terminal));
      if (node !== undefined) fed.add(graph.net[node]!);
    }
  }
  for (let net = 0; net < found.length; net++) {
    if (!found[net] && !fed.has(net) && hasGroundEnd(graph, net)) found[net] = { role: 'ground', nominalV: 0 };
  }
}

function growRails(graph: Graph, found: (NetNature | null)[], seeds: readonly { node: number; nature: NetNature }[]): void {
  const queue: { net: number; nature: NetNature }[] = seeds.map((s) => ({ net: graph.net[s.node]!, nature: s.nature }));
  for (let q = 0; q < queue.length; q++) {
    const { net, nature } = queue[q]!;
    if (found[net]) continue;
    found[net] = nature;
    for (const node of graph.netNodes[net]!) {
      for (const e of graph.at[node]!) {
        const edge = graph.edges[e]!;
        if (!edge.link || !KEEPS_RAIL.has(edge.link.type)) continue;
        if (edge.link.type === 'diode' && edge.a !== node) continue;
        const next = graph.net[other(edge, node)]!;
        if (!found[next]) queue.push({ net: next, nature });
      }
    }
  }
}

function hasGroundEnd(graph: Graph, net: number): boolean {
  return terminalsOn(graph, net).some(({ terminal, isReturn }) => !terminal.groundElsewhere && roleOf(terminal, isReturn) === 'ground');
}

function terminalRoles(graph: Graph, net: number): string[] {
  return terminalsOn(graph, net).map(({ terminal, isReturn }) => roleOf(terminal, isReturn));
}

function roleOf(terminal: TerminalDef, isReturn: boolean): string {
  return !isReturn ? terminal.role : terminal.form === 'usb' ? 'ground' : `${terminal.role}-ground`;
}

/** Terminals of parts on a net; `isReturn`: the second conductor of a two-core one. */
function terminalsOn(graph: Graph, net: number): { readonly terminal: TerminalDef; readonly isReturn: boolean }[] {
  return (graph.netNodes[net] ?? []).flatMap((node) => {
    const [part, name] = splitKey(graph.nodes[node]!);
    const isReturn = name.endsWith('~0');
    const id = isReturn ? name.slice(0, -2) : name;
    const terminal = graph.views.get(part)?.terminals.find((t) => t.id === id);
    return terminal ? [{ terminal, isReturn }] : [];
  });
}

function fromTerminals(graph: Graph, net: number): NetNature {
  const roles = new Set(terminalRoles(graph, net));
  const pick = (...names: string[]): boolean => names.some((n) => roles.has(n));
  if (pick('usb-data')) return { role: 'usb', nominalV: 5 };
  if (pick('audio')) return { role: 'audio', nominalV: null };
  if (pick('video')) return { role: 'video', nominalV: null };
  if (pick('audio-ground', 'video-ground')) return { role: pick('audio-ground') ? 'audio' : 'video', nominalV: null };
  if (pick('signal', 'coil')) return { role: 'signal', nominalV: null };
  if (pick('rail3')) return { role: 'rail3', nominalV: 3.3 };
  if (pick('rail5')) return { role: 'rail5', nominalV: 5 };
  if (pick('supply')) return { role: 'supply', nominalV: graph.plan.vehicle.systemV };
  if (pick('ground')) return { role: 'ground', nominalV: 0 };
  return { role: 'unknown', nominalV: null };
}

/** `p3.87` → ['p3', '87']. */
export function splitKey(key: string): [part: string, terminal: string] {
  const dot = key.indexOf('.');
  return dot === -1 ? [key, ''] : [key.slice(0, dot), key.slice(dot + 1)];
}
