import type { Graph } from '../analysis/graph.ts';
import type { NetNature } from '../analysis/roles.ts';
import type { Id } from '../plan/types.ts';

export interface ResistorChoice {
  readonly ohm: number;
  readonly ratedW: number | null;
  readonly reason: string;
}

/**
 * Values for resistors that are not typed, by what they stand beside: sensing LED by supply, indicator LED by its rail,
 * pull-up, or in line with a button.
 */
export function chooseResistors(graph: Graph, natures: readonly NetNature[]): Map<Id, ResistorChoice> {
  const choices = new Map<Id, ResistorChoice>();
  const { systemV } = graph.plan.vehicle;
  for (const view of graph.views.values()) {
    if (view.kind.kind !== 'resistor' || view.s.typed('ohm')) continue;
    const nets = ['1', '2'].map((t) => graph.net[graph.indexOf.get(`${view.part.id}.${t}`)!]!);
    const kinds = new Set(nets.flatMap((n) => graph.netNodes[n]!.flatMap((node) => kindsAt(graph, node, view.part.id))));
    const volts = nets.map((n) => natures[n]!.nominalV).filter((v): v is number => v !== null && v > 0);
    const roles = nets.map((n) => natures[n]!.role);
    choices.set(view.part.id, pick(kinds, roles, Math.max(0, ...volts), systemV));
  }
  return choices;
}

function kindsAt(graph: Graph, node: number, self: Id): string[] {
  const [part, terminal] = graph.nodes[node]!.split('.') as [string, string | undefined];
  if (part === self || terminal === undefined) return [];
  const kind = graph.views.get(part)?.kind.kind;
  if (kind === 'optocoupler') return [terminal === 'A' || terminal === 'K' ? 'sensing-led' : 'optocoupler-output'];
  return kind ? [kind] : [];
}

function pick(kinds: ReadonlySet<string>, roles: readonly string[], volts: number, systemV: 12 | 24): ResistorChoice {
  if (kinds.has('sensing-led')) {
    return systemV === 12
      ? { ohm: 2200, ratedW: 0.25, reason: 'sensing LED on 12 V: 3 mA at 9 V, 0.11 W at 16 V' }
      : { ohm: 4700, ratedW: 0.5, reason: 'sensing LED on 24 V: 3 mA at 18 V, 0.22 W at 32 V' };
  }
  if (kinds.has('led')) {
    if (volts > 18) return { ohm: 4700, ratedW: 0.5, reason: 'indicator on 24 V: about 6 mA' };
    if (volts > 6) return { ohm: 2200, ratedW: 0.25, reason: 'indicator on 12 V: about 6 mA at 16 V' };
    return { ohm: 680, ratedW: 0.25, reason: 'indicator on a logic rail: a few mA' };
  }
  if (roles.includes('rail3')) return { ohm: 10_000, ratedW: null, reason: 'pull-up to 3.3 V' };
  return { ohm: 1000, ratedW: null, reason: 'in line with a pin: 1 kΩ keeps spikes out' };
}
