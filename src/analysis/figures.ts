import { wireRoute } from '../plan/lengths.ts';
import type { Id, Wire } from '../plan/types.ts';
import { planningLimit } from '../trade/ampacity.ts';
import { zoneClimate } from '../trade/zones.ts';
import type { Graph } from './graph.ts';
import type { WireFigures } from './network.ts';

/** Length when no run joins the zones and none is typed: the wire is still computed, the missing run is a to-do. */
export const FALLBACK_LENGTH_M = 2;
const DEFAULT_INSULATION_C = 105;

/** What a wire is before anything is solved: length, zones crossed and their temperatures. */
export interface WireBasics {
  readonly lengthM: number;
  readonly zones: readonly Id[];
  readonly lengthKnown: boolean;
  readonly zoneMaxC: number;
  readonly zoneMinC: number;
}

/** Lengths and climates of every wire. The zone of a wire is the hottest it crosses. */
export function wireBasics(graph: Graph): Map<Id, WireBasics> {
  const { plan } = graph;
  const climateOf = (id: Id): { maxC: number; minC: number } => {
    const zone = plan.zones[id];
    const climate = zoneClimate(zone?.kind ?? 'dash');
    return { maxC: zone?.maxC ?? climate.maxC, minC: zone?.minC ?? climate.minC };
  };
  const basics = new Map<Id, WireBasics>();
  for (const wire of graph.wires) {
    const route = wireRoute(plan, wire);
    const ends = [plan.parts[wire.from.part]?.zone, plan.parts[wire.to.part]?.zone].filter((z): z is Id => z !== undefined);
    const zones = route?.zones ?? ends;
    const climates = zones.map(climateOf);
    basics.set(wire.id, {
      lengthM: wire.lengthM ?? route?.lengthM ?? FALLBACK_LENGTH_M,
      zones,
      lengthKnown: wire.lengthM !== undefined || route !== null,
      zoneMaxC: Math.max(...climates.map((c) => c.maxC)),
      zoneMinC: Math.min(...climates.map((c) => c.minC)),
    });
  }
  return basics;
}

/** Figures for solving. `heatA` of an earlier design solve sets the conductor's own rise: 45 K x (I / limit)^2, capped. */
export function wireFigures(graph: Graph, basics: ReadonlyMap<Id, WireBasics>, heatA?: ReadonlyMap<Id, number>): Map<Id, WireFigures> {
  const figures = new Map<Id, WireFigures>();
  for (const wire of graph.wires) {
    const b = basics.get(wire.id)!;
    const amp = heatA?.get(wire.id) ?? 0;
    const { baseA } = planningLimit(wire.areaMm2 ?? 1, wire.insulationC ?? DEFAULT_INSULATION_C, b.zoneMaxC, 1);
    const share = Math.min(1, amp / baseA);
    figures.set(wire.id, { lengthM: b.lengthM, zoneMaxC: b.zoneMaxC, zoneMinC: b.zoneMinC, riseK: 45 * share * share });
  }
  return figures;
}

/**
 * Loaded conductors that lie together with a wire, for bundling: every wire along the same leg between two zones counts
 * when it carries more than 30 % of its own limit (rule of the note to BS 7671 table 4C1, read in a quotation).
 */
export function loadedTogether(
  graph: Graph,
  basics: ReadonlyMap<Id, WireBasics>,
  heatA: (id: Id) => number,
  areaOf: (wire: Wire) => number = (wire) => wire.areaMm2 ?? 1,
): Map<Id, number> {
  const legs = new Map<string, number>();
  const legsOf = (id: Id): string[] => {
    const zones = basics.get(id)!.zones;
    return zones.slice(1).map((z, i) => [zones[i]!, z].sort().join('|'));
  };
  for (const wire of graph.wires) {
    if (wire.owner === 'vehicle') continue;
    const b = basics.get(wire.id)!;
    const { baseA, kT } = planningLimit(areaOf(wire), wire.insulationC ?? DEFAULT_INSULATION_C, b.zoneMaxC, 1);
    if (heatA(wire.id) <= 0.3 * baseA * kT) continue;
    for (const leg of legsOf(wire.id)) legs.set(leg, (legs.get(leg) ?? 0) + 1);
  }
  const together = new Map<Id, number>();
  for (const wire of graph.wires) together.set(wire.id, Math.max(1, ...legsOf(wire.id).map((leg) => legs.get(leg) ?? 0)));
  return together;
}
