import { elementAmps, type Network } from '../circuit/index.ts';
import type { Element, Settled } from '../circuit/types.ts';
import type { Id } from '../plan/types.ts';
import { parkedDays, selfDischargeA } from '../trade/battery.ts';
import type { Graph } from './graph.ts';
import { KEY_POSITIONS, type LoadRow, type ParkedReport } from './types.ts';

/** Power taken up by every part, W, in one settled network (sources count what they give away as negative). */
export function partWatts(network: Network, elements: readonly Element[], settled: Settled): Map<Id, number> {
  const { solution } = settled;
  const v = (node: string): number => {
    const i = network.nodeIndex.get(node);
    return i === undefined || i < 0 ? 0 : solution.volts[i]!;
  };
  const watts = new Map<Id, number>();
  for (const e of elements) {
    const colon = e.id.indexOf(':');
    if (colon <= 0) continue;
    const part = e.id.slice(0, colon);
    watts.set(part, (watts.get(part) ?? 0) + elementWatts(network, e, settled, v));
  }
  return watts;
}

function elementWatts(network: Network, e: Element, settled: Settled, v: (node: string) => number): number {
  const amps = (port?: string): number => elementAmps(network, e, settled.solution, port);
  if (e.kind === 'opto') return (v(e.a) - v(e.k)) * amps('led') + (v(e.c) - v(e.e)) * amps('out');
  if (e.kind === 'stepdown' || e.kind === 'linear') return (v(e.in) - v(e.gnd)) * amps('in') - (v(e.out) - v(e.gnd)) * amps('out');
  return (v(e.a) - v(e.b)) * amps() * (e.kind === 'source' ? -1 : 1);
}

/** What the parked build adds, who draws it, and how long the battery lasts (0.40 Ah / total, from 90 % to 50 % charge). */
export function parkedReport(graph: Graph, watts: ReadonlyMap<Id, number>, supplyV: number): ParkedReport {
  const { vehicle } = graph.plan;
  const shares = [...graph.views.values()]
    .filter((view) => view.kind.owner !== 'vehicle')
    .map((view) => ({ part: view.part.id, name: view.name, amp: Math.max(0, watts.get(view.part.id) ?? 0) / supplyV }))
    .filter((s) => s.amp > 1e-9)
    .sort((a, b) => b.amp - a.amp);
  const buildA = shares.reduce((sum, s) => sum + s.amp, 0);
  const selfA = selfDischargeA(vehicle.batteryAh);
  return {
    buildA,
    vehicleA: vehicle.parkedA,
    selfA,
    days: parkedDays(vehicle.batteryAh, vehicle.parkedA + selfA + buildA),
    daysWithout: parkedDays(vehicle.batteryAh, vehicle.parkedA + selfA),
    shares,
  };
}

/** One row for every part that takes power for its own work, at each key position. */
export function loadRows(
  graph: Graph,
  wattsAt: readonly ReadonlyMap<Id, number>[],
  voltsOf: (part: Id, plus: string, minus: string, key: number) => number,
): LoadRow[] {
  const rows: LoadRow[] = [];
  for (const view of graph.views.values()) {
    const load = view.facts.loads?.[0];
    if (!load || (view.facts.sources ?? []).some((s) => s.kind === 'converter')) continue;
    const watts = KEY_POSITIONS.map((_, k) => Math.max(0, wattsAt[k]?.get(view.part.id) ?? 0));
    rows.push({
      part: view.part.id,
      name: view.name,
      nominalV: load.nominalV,
      peakA: load.peakA,
      heatA: load.heatA,
      watts,
      amps: watts.map((w, k) => {
        const v = voltsOf(view.part.id, load.plus, load.minus, k);
        return v > 0.1 ? w / v : 0;
      }),
    });
  }
  return rows;
}
