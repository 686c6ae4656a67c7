import type { Graph } from '../analysis/graph.ts';
import { other } from '../analysis/graph.ts';
import type { NetNature } from '../analysis/roles.ts';
import { bySerial } from '../analysis/views.ts';
import type { ColourCode, Id, Line } from '../plan/types.ts';

export interface ColourChoice {
  readonly colour: ColourCode;
  readonly stripe?: ColourCode;
  readonly reason: string;
}

/**
 * Colours for signals, in turn. Not black or brown (ground), red (supply), violet (5 V), pink (3.3 V), yellow (restraint
 * wiring) or orange (high voltage).
 */
const SIGNALS: readonly ColourCode[] = ['BU', 'GN', 'WH', 'TQ', 'GY'];
const STRIPES: readonly (ColourCode | null)[] = [null, 'BK', 'RD', 'WH', 'BU'];
const LINE_STRIPE: Readonly<Partial<Record<Line, ColourCode>>> = { '15': 'GN', '75': 'BU', '75r': 'BU', '58': 'GY', reverse: 'TQ' };

/** Colour of every wire by what its net is for; one colour never means two voltages. */
export function chooseColours(graph: Graph, natures: readonly NetNature[]): Map<Id, ColourChoice> {
  const choices = new Map<Id, ColourChoice>();
  const ofNet = new Map<number, ColourChoice>();
  let next = 0;
  const edgeOf = new Map(graph.edges.flatMap((e, i) => (e.wire ? [[e.wire.id, i] as const] : [])).reverse());
  for (const wire of [...graph.wires].sort(bySerial)) {
    const edge = graph.edges[edgeOf.get(wire.id)!];
    if (!edge || wire.owner === 'vehicle') continue;
    const net = graph.net[edge.a]!;
    let choice = ofNet.get(net);
    if (!choice) {
      const nature = natures[net]!;
      if (nature.role === 'signal' || nature.role === 'unknown') {
        const stripe = STRIPES[Math.floor(next / SIGNALS.length) % STRIPES.length] ?? null;
        const colour = SIGNALS[next % SIGNALS.length]!;
        next++;
        choice = { colour, ...(stripe && stripe !== colour ? { stripe } : {}), reason: 'signal: the next free colour' };
      } else choice = railColour(graph, net, nature);
      ofNet.set(net, choice);
    }
    choices.set(wire.id, choice);
  }
  return choices;
}

function railColour(graph: Graph, net: number, nature: NetNature): ColourChoice {
  switch (nature.role) {
    case 'ground':
      return { colour: 'BK', reason: 'ground is black' };
    case 'rail5':
      return { colour: 'VT', reason: '5 V is violet' };
    case 'rail3':
      return { colour: 'PK', reason: '3.3 V is pink' };
    case 'supply': {
      if (nature.nominalV !== null && nature.nominalV !== graph.plan.vehicle.systemV)
        return { colour: 'WH', stripe: 'RD', reason: `${nature.nominalV} V made here: white with red` };
      const { line, switched } = origin(graph, net);
      const stripe = (line && LINE_STRIPE[line]) ?? (switched ? 'WH' : undefined);
      return { colour: 'RD', ...(stripe ? { stripe } : {}), reason: stripe ? 'supply is red; the stripe tells switched from constant' : 'supply is red' };
    }
    default:
      return { colour: 'GY', reason: 'sheath of a ready-made cable' };
  }
}

/** Which line feeds a supply net, and whether a contact stands between. */
function origin(graph: Graph, net: number): { line: Line | null; switched: boolean } {
  const queue: { net: number; switched: boolean }[] = [{ net, switched: false }];
  const seen = new Set([net]);
  for (let q = 0; q < queue.length; q++) {
    const at = queue[q]!;
    for (const node of graph.netNodes[at.net]!) {
      const part = graph.nodes[node]!.split('.')[0]!;
      const feed = graph.views.get(part)?.facts.sources?.find((s) => s.line && graph.nodes[node] === `${part}.${s.terminal}`);
      if (feed?.line) return { line: feed.line, switched: at.switched };
      for (const e of graph.at[node]!) {
        const edge = graph.edges[e]!;
        if (!edge.link || !['fuse', 'contact', 'diode', 'conductor'].includes(edge.link.type)) continue;
        if (edge.link.type === 'diode' && edge.b !== node) continue;
        const next = graph.net[other(edge, node)]!;
        if (seen.has(next)) continue;
        seen.add(next);
        queue.push({ net: next, switched: at.switched || edge.link.type === 'contact' });
      }
    }
  }
  return { line: null, switched: false };
}
