import type { Graph } from '../analysis/graph.ts';
import { other } from '../analysis/graph.ts';
import type { NetNature } from '../analysis/roles.ts';
import { bySerial } from '../analysis/views.ts';
import type { ColourCode, Id, Line, Wire } from '../plan/types.ts';

export interface ColourChoice {
  readonly colour: ColourCode;
  readonly stripe?: ColourCode;
  readonly reason: string;
}

/**
 * Looks for signals, in turn. Not black or brown (ground), red (supply), violet (5 V), pink (3.3 V), yellow (restraint
 * wiring) or orange (high voltage); plain grey is the sheath of a ready-made cable.
 */
const SIGNALS: readonly Look[] = ([undefined, 'BK', 'WH', 'BU', 'GN'] as const).flatMap((stripe) =>
  (['BU', 'GN', 'WH', 'TQ', 'GY'] as const)
    .filter((colour) => colour !== stripe && (colour !== 'GY' || stripe !== undefined))
    .map((colour): Look => ({ colour, ...(stripe ? { stripe } : {}) })),
);
/** Stripes on white for supplies that the build makes itself: one for each voltage, and no signal has them. */
const MADE_STRIPES: readonly ColourCode[] = ['RD', 'VT', 'PK', 'BN', 'TQ', 'GY'];
const LINE_STRIPE: Readonly<Partial<Record<Line, ColourCode>>> = { '15': 'GN', '75': 'BU', '75r': 'BU', '58': 'GY', reverse: 'TQ' };

interface Look {
  readonly colour: ColourCode;
  readonly stripe?: ColourCode;
}

const same = (a: Look, b: Look): boolean => a.colour === b.colour && a.stripe === b.stripe;

/** Colour of every wire by what its net is for; one colour never means two voltages. */
export function chooseColours(graph: Graph, natures: readonly NetNature[]): Map<Id, ColourChoice> {
  const edgeOf = new Map(graph.edges.flatMap((e, i) => (e.wire ? [[e.wire.id, i] as const] : [])).reverse());
  const netOf = (wire: Wire): number => graph.net[graph.edges[edgeOf.get(wire.id)!]!.a]!;
  const ours = graph.wires.filter((w) => w.owner !== 'vehicle' && edgeOf.has(w.id)).sort(bySerial);
  const typed = new Map<number, Look>();
  for (const w of ours)
    if (w.colour !== undefined && !typed.has(netOf(w))) typed.set(netOf(w), { colour: w.colour, ...(w.stripe ? { stripe: w.stripe } : {}) });
  const made = madeVolts(graph, natures);
  const choices = new Map<Id, ColourChoice>();
  const ofNet = new Map<number, ColourChoice>();
  let next = 0;
  const signal = (net: number): ColourChoice => {
    const mine = typed.get(net);
    if (mine) return { ...mine, reason: 'as the wire of this net whose colour is typed' };
    // A look that is typed elsewhere is passed over, as long as there is another.
    for (let skipped = 0; skipped < SIGNALS.length && [...typed.values()].some((t) => same(t, SIGNALS[next % SIGNALS.length]!)); skipped++) next++;
    return { ...SIGNALS[next++ % SIGNALS.length]!, reason: 'signal: the next free colour' };
  };
  for (const wire of ours) {
    const net = netOf(wire);
    let choice = ofNet.get(net);
    if (!choice) {
      const nature = natures[net]!;
      choice = nature.role === 'signal' || nature.role === 'unknown' ? signal(net) : railColour(graph, net, nature, made);
      ofNet.set(net, choice);
    }
    choices.set(wire.id, choice);
  }
  return choices;
}

/** Voltages of supplies that the build makes itself, least first. */
function madeVolts(graph: Graph, natures: readonly NetNature[]): readonly number[] {
  const volts = natures.filter((n) => n.role === 'supply' && n.nominalV !== null && n.nominalV !== graph.plan.vehicle.systemV).map((n) => n.nominalV!);
  return [...new Set(volts)].sort((a, b) => a - b);
}

function railColour(graph: Graph, net: number, nature: NetNature, made: readonly number[]): ColourChoice {
  switch (nature.role) {
    case 'ground':
      return { colour: 'BK', reason: 'ground is black' };
    case 'rail5':
      return { colour: 'VT', reason: '5 V is violet' };
    case 'rail3':
      return { colour: 'PK', reason: '3.3 V is pink' };
    case 'supply': {
      const which = nature.nominalV === null ? -1 : made.indexOf(nature.nominalV);
      if (which !== -1)
        return {
          colour: 'WH',
          stripe: MADE_STRIPES[which % MADE_STRIPES.length]!,
          reason: `${nature.nominalV} V made here: white, its stripe for this voltage`,
        };
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
