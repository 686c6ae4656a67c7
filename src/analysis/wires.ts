import type { Id } from '../plan/types.ts';
import { planningLimit } from '../trade/ampacity.ts';
import { coldOhmPerM } from '../trade/conductors.ts';
import { loadedTogether, type WireBasics } from './figures.ts';
import type { Graph } from './graph.ts';
import { type WireFigures, wireC, wireOhm } from './network.ts';
import type { Ends } from './protection.ts';
import type { NetNature } from './roles.ts';
import type { EndProtection, Reading, ReadingIndex, WireReport } from './types.ts';

export interface WireInputs {
  readonly graph: Graph;
  readonly basics: ReadonlyMap<Id, WireBasics>;
  readonly figures: ReadonlyMap<Id, WireFigures>;
  readonly natures: readonly NetNature[];
  readonly endsOf: (edge: number) => Ends;
  readonly index: ReadingIndex;
  readonly readings: readonly Reading[];
  readonly design: Reading;
  readonly heatA: ReadonlyMap<Id, number>;
}

const INSULATION_C = 105;

/** Everything that is asked of a wire, for every wire. */
export function wireReports(input: WireInputs): Record<Id, WireReport> {
  const { graph, basics, figures, natures, index } = input;
  const together = loadedTogether(graph, basics, (id) => input.heatA.get(id) ?? 0);
  const terminalAt = new Map(index.terminals.map((t, i) => [t, i]));
  const edgeOf = new Map<Id, number>();
  graph.edges.forEach((e, i) => {
    if (e.wire && !edgeOf.has(e.wire.id)) edgeOf.set(e.wire.id, i);
  });
  const reports: Record<Id, WireReport> = {};
  index.wires.forEach((id, w) => {
    const wire = graph.plan.wires[id]!;
    const b = basics.get(id)!;
    const f = figures.get(id)!;
    const edge = edgeOf.get(id)!;
    const areaMm2 = wire.areaMm2 ?? 1;
    const nature = natures[graph.net[graph.edges[edge]!.a]!]!;
    const limit = planningLimit(areaMm2, wire.insulationC ?? INSULATION_C, b.zoneMaxC, together.get(id)!);
    const from = terminalAt.get(`${wire.from.part}.${wire.from.terminal}`)!;
    const to = terminalAt.get(`${wire.to.part}.${wire.to.terminal}`)!;
    const worst = worstOf([...input.readings, input.design], w, from, to, b.lengthM);
    const protection = input.endsOf(edge);
    const greatest = Math.max(protection.from.maxA, protection.to.maxA);
    const share = nature.nominalV ? worst.dropV / nature.nominalV : null;
    reports[id] = {
      id,
      areaMm2,
      lengthM: b.lengthM,
      hotOhm: wireOhm(graph, id, f, wireC(f, 'low')),
      coldOhm: b.lengthM * coldOhmPerM(areaMm2),
      limitA: limit.limitA,
      baseA: limit.baseA,
      kT: limit.kT,
      kN: limit.kN,
      zoneC: b.zoneMaxC,
      nominalV: nature.nominalV,
      role: nature.role,
      worstA: worst.amp,
      worstState: worst.reading.state,
      worstBand: worst.reading.band,
      heatA: input.heatA.get(id) ?? 0,
      peakA: Math.abs(input.design.wireA[w]!) || 0,
      worstDropV: worst.dropV,
      worstDropShare: nature.role === 'ground' ? worst.dropV / graph.plan.vehicle.systemV : share,
      worstW: worst.watt,
      worstWPerM: b.lengthM > 0 ? worst.watt / b.lengthM : 0,
      protection,
      protectedBy: nameOf(protection),
      isProtected: wire.owner === 'vehicle' || greatest <= limit.limitA * (1 + 1e-9),
      unfused: wire.owner !== 'vehicle' && greatest === Number.POSITIVE_INFINITY,
    };
  });
  return reports;
}

/** The end that current can really enter names the guard; a radial wire has one. */
function nameOf(protection: { readonly from: EndProtection; readonly to: EndProtection }): string {
  const { from, to } = protection;
  if (from.maxA === Number.POSITIVE_INFINITY || to.maxA === Number.POSITIVE_INFINITY) return '';
  const ends = [from, to].filter((e) => e.maxA > 0);
  return [...new Set(ends.map((e) => e.byName))].join(' + ') || 'no source';
}

/** A reading counts as worse only beyond rounding, so that the state named does not depend on noise. */
const MORE = 1 + 1e-6;

/** Largest current and where; largest drop and loss, which may be in another band: hot copper loses more with less current. */
function worstOf(
  readings: readonly Reading[],
  wire: number,
  from: number,
  to: number,
  lengthM: number,
): { reading: Reading; amp: number; dropV: number; watt: number } {
  const worst = { reading: readings[0]!, amp: 0, dropV: 0, watt: 0 };
  for (const reading of readings) {
    const amp = Math.abs(reading.wireA[wire]!);
    if (reading.status !== 'solved' || Number.isNaN(amp)) continue;
    const dropV = Math.abs(reading.terminalV[from]! - reading.terminalV[to]!) || 0;
    worst.dropV = Math.max(worst.dropV, dropV);
    if (lengthM > 0) worst.watt = Math.max(worst.watt, dropV * amp);
    if (amp > worst.amp * MORE) {
      worst.amp = amp;
      worst.reading = reading;
    }
  }
  return worst;
}
