import type { PartView } from '../analysis/factsTypes.ts';
import { type Graph, other } from '../analysis/graph.ts';
import { splitKey } from '../analysis/roles.ts';
import type { Id, Value } from '../plan/types.ts';
import { HEADER } from '../trade/header.ts';
import { senseRank } from './senseLine.ts';

/** What an automatic pin mode is, and why. */
export interface PinChoice {
  readonly part: Id;
  readonly key: string;
  readonly value: Value;
  readonly reason: string;
}

/** A small resistor in line does not hide what is behind it; a pull-up does. */
const IN_LINE_OHM = 4700;

/** Modes of wired pins and the key sense pin of every computer, where not typed. */
export function choosePins(graph: Graph): PinChoice[] {
  const choices: PinChoice[] = [];
  for (const view of graph.views.values()) {
    if (view.kind.kind !== 'computer') continue;
    let sense: { gpio: number; reason: string; rank: number } | null = null;
    for (const cell of HEADER) {
      if (cell.gpio === null) continue;
      const node = graph.indexOf.get(`${view.part.id}.${cell.pin}`);
      if (node === undefined || !graph.at[node]!.some((e) => graph.edges[e]!.wire)) continue;
      const found = behind(graph, view, node);
      const key = `gpio${cell.gpio}Mode`;
      if (!view.s.typed(key)) choices.push({ part: view.part.id, key, ...modeFor(found, cell.gpio) });
      if (!found.optocoupler) continue;
      const rank = senseRank(graph, found.optocoupler);
      if (!sense || rank < sense.rank) sense = { gpio: cell.gpio, reason: `joined to ${found.optocoupler.item} ${found.optocoupler.name}`, rank };
    }
    if (!view.s.typed('senseGpio') && sense) choices.push({ part: view.part.id, key: 'senseGpio', value: sense.gpio, reason: sense.reason });
  }
  return choices;
}

interface Behind {
  optocoupler: PartView | null;
  button: PartView | null;
  driven: PartView | null;
  pullUp: PartView | null;
  /** The vehicle's own volts come to it: whatever hangs on them as well, it drives nothing. */
  fed: boolean;
  /** A device that talks over it. */
  talks: PartView | null;
}

function modeFor(found: Behind, gpio: number): { value: Value; reason: string } {
  if (found.talks && (found.talks.kind.kind === 'serial-device' ? SERIAL : BUS).has(gpio))
    return { value: found.talks.kind.kind === 'serial-device' ? 'serial' : 'bus', reason: `${found.talks.item} ${found.talks.name} talks over it` };
  if (found.driven && !found.fed && !found.button && !found.optocoupler) return { value: 'out', reason: `drives ${found.driven.item} ${found.driven.name}` };
  const what = found.optocoupler ?? found.button;
  if (!what) return { value: 'in', reason: 'an input until something says otherwise' };
  if (found.pullUp) return { value: 'in', reason: `${what.item} pulls it low, ${found.pullUp.item} pulls it up` };
  return { value: 'in-up', reason: `${what.item} pulls GPIO ${gpio} low, so the pin's own pull-up must be on` };
}

/** Parts met from a pin through wires, joints and small resistors. */
function behind(graph: Graph, computer: PartView, start: number): Behind {
  const found: Behind = { optocoupler: null, button: null, driven: null, pullUp: null, fed: false, talks: null };
  const seen = new Set([start]);
  const queue = [start];
  for (let q = 0; q < queue.length; q++) {
    for (const e of graph.at[queue[q]!]!) {
      const edge = graph.edges[e]!;
      const next = other(edge, queue[q]!);
      if (seen.has(next) || edge.view === computer) continue;
      if (edge.link?.type === 'resistor' && (edge.link.ohm ?? 0) > IN_LINE_OHM) {
        if (touchesRail3(graph, next)) found.pullUp = edge.view;
        continue;
      }
      if (edge.link && edge.link.type !== 'join' && edge.link.type !== 'resistor' && edge.link.type !== 'fuse') continue;
      if (edge.link?.type === 'resistor' && touchesRail3(graph, next)) {
        found.pullUp = edge.view;
        continue;
      }
      seen.add(next);
      note(found, graph, next);
      const [part] = splitKey(graph.nodes[next]!);
      if (graph.nodes[next] !== '0' && part !== computer.part.id && !graph.nodes[next]!.startsWith('chassis:')) queue.push(next);
    }
  }
  return found;
}

/** Pins of the header with a serial line of their own, and those of the usual two-wire bus. */
const SERIAL: ReadonlySet<number> = new Set([14, 15]);
const BUS: ReadonlySet<number> = new Set([2, 3]);

/** Lines over which a device talks, by kind. */
const LINES: Readonly<Record<string, readonly string[]>> = { 'serial-device': ['tx', 'rx'], 'bus-device': ['sda', 'scl'] };

function note(found: Behind, graph: Graph, node: number): void {
  const [part, terminal] = splitKey(graph.nodes[node]!);
  const view = graph.views.get(part);
  if (!view) return;
  if (view.facts.sources?.some((s) => s.terminal === terminal && (s.kind === 'feed' || s.kind === 'battery'))) found.fed = true;
  if (view.kind.kind === 'optocoupler' && (terminal === 'C' || terminal === 'E')) found.optocoupler = view;
  if (view.kind.kind === 'push-button' || view.kind.kind === 'master-switch') found.button = view;
  if (LINES[view.kind.kind]?.includes(terminal)) found.talks = view;
  if (DRIVEN[view.kind.kind]?.includes(terminal)) found.driven = view;
}

/** Terminals that want to be driven, by kind: a lamp, a brightness input, a coil, the LED of an optocoupler, what keeps a latch closed, a driver. */
const DRIVEN: Readonly<Record<string, readonly string[]>> = {
  led: ['A', 'K'],
  'touch-display': ['bl'],
  relay: ['86', '85'],
  optocoupler: ['A', 'K'],
  'hold-latch': ['hold'],
  'low-side-driver': ['in'],
};

function touchesRail3(graph: Graph, node: number): boolean {
  return graph.netNodes[graph.net[node]!]!.some((n) => {
    const [part, terminal] = splitKey(graph.nodes[n]!);
    return graph.views.get(part)?.kind.kind === 'computer' && (terminal === '1' || terminal === '17');
  });
}
