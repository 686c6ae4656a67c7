import { describe, expect, it } from 'vitest';
import { computeResults, settlePlan } from '../../src/advise/index.ts';
import { wireFigures } from '../../src/analysis/figures.ts';
import { buildGraph } from '../../src/analysis/graph.ts';
import { Solver, walk } from '../../src/analysis/readings.ts';
import type { Arrival } from '../../src/analysis/types.ts';
import { solveAtRest } from '../../src/circuit/index.ts';
import type { Element } from '../../src/circuit/types.ts';
import type { Band } from '../../src/plan/types.ts';
import { demoPlan } from '../bench/largePlan.ts';
import { type Bench, fused } from '../rules/plans.ts';

/** A converter with a USB device behind it and a camera beside it: few enough tolerances to try them all. */
function small(): Bench {
  return fused('small')
    .set('fuse', { ratingA: 5 })
    .part('converter', 'step-down', 'seat')
    .part('camera', 'camera', 'seat')
    .part('device', 'touch-display', 'desk')
    .wire('fuse.2', 'converter.in', { lengthM: 4 }, 'feed')
    .wire('converter.gnd', 'ground.31', { lengthM: 4 }, 'return')
    .wire('camera.+', 'converter.in')
    .wire('camera.-', 'converter.gnd')
    .wire('converter.out', 'device.5v', { lengthM: 2.4, areaMm2: 1 })
    .wire('device.0v', 'converter.0v', { lengthM: 2.4, areaMm2: 1 });
}

/** The extreme over every corner of the tolerances, each solved on its own: 2^n networks. */
function bruteForce(
  b: Bench,
  band: Band,
  arrival: Arrival,
  state: NonNullable<Arrival['worstLow']>['state'],
  side: 'min' | 'max',
): { v: number; corners: number } {
  const { filled, known } = settlePlan(b.plan);
  const graph = buildGraph(filled);
  const solver = new Solver(graph, wireFigures(graph, known.design.basics, known.design.wireHeatA));
  const settled = walk(solver, band).settledAt.get(state)!;
  const elements = solver.elementsOf({ state, band }, settled.states);
  const spots = elements.flatMap((e, at) => Object.entries(e.tol ?? {}).map(([param, tolerance]) => ({ at, param, tolerance })));
  const index = (local: string): number => solver.network.nodeIndex.get(`${arrival.part}.${local}`)!;
  let best = Number.NaN;
  for (let corner = 0; corner < 2 ** spots.length; corner++) {
    const moved: Element[] = [...elements];
    spots.forEach(({ at, param, tolerance }, k) => {
      const high = (corner >> k) % 2 === 1;
      const factor = typeof tolerance === 'number' ? (high ? 1 + tolerance : 1 - tolerance) : tolerance[high ? 1 : 0];
      const was = moved[at] as unknown as Record<string, number>;
      moved[at] = { ...was, [param]: was[param]! * factor } as unknown as Element;
    });
    const solution = solveAtRest(solver.network, moved);
    const v = solution.volts[index(arrival.plus)]! - solution.volts[index(arrival.minus)]!;
    if (Number.isNaN(best) || (side === 'min' ? v < best : v > best)) best = v;
  }
  return { v: best, corners: 2 ** spots.length };
}

describe('what arrives at a load', () => {
  const b = small();
  const results = computeResults(b.plan);
  const arrival = (name: string): Arrival => results.analysis.arrivals.find((a) => a.part === b.id(name))!;

  it.each(['converter', 'camera', 'device'])('at its worst is the worst of all corners of the tolerances: %s', (name) => {
    const { worstLow, worstHigh } = arrival(name);
    const low = bruteForce(b, 'low', arrival(name), worstLow!.state, 'min');
    expect(low.corners).toBeGreaterThanOrEqual(16);
    // The corner is picked by sign and solved; what the other loads' corners leave over is made up to first order.
    expect(worstLow!.v).toBeCloseTo(low.v, 4);
    const high = bruteForce(b, 'high', arrival(name), worstHigh!.state, 'max');
    expect(worstHigh!.v).toBeCloseTo(high.v, 4);
  });

  it('is less at its worst low, more at its worst high than in the bands alone, and says which corner made it', () => {
    const { worstLow, worstHigh, typical } = arrival('device');
    expect(worstLow!.v).toBeLessThan(typical[4]!);
    expect(worstHigh!.v).toBeGreaterThan(typical[4]!);
    // The converter's own tolerance is what moves 5 V most: 2 % of 5.12 V.
    expect(worstLow!.corner).toMatch(/^T1 output set −2/);
    expect(worstHigh!.corner).toMatch(/^T1 output set \+2/);
  });

  it('counts low volts only where the load runs, and dead positions as dead', () => {
    const behind15 = fused('behind 15')
      .part('feed15', 'feed-15', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
      .part('fuse15', 'blade-fuse', 'dash')
      .part('camera', 'camera', 'seat')
      .wire('battery.+', 'feed15.in', { owner: 'vehicle' })
      .wire('feed15.out', 'fuse15.1')
      .wire('fuse15.2', 'camera.+')
      .wire('camera.-', 'ground.31');
    const [at] = computeResults(behind15.plan).analysis.arrivals;
    // Parked, Accessory, Ignition, Start, Running, Held.
    expect(at!.typical.map((v) => v > 9)).toEqual([false, false, true, true, true, false]);
    expect(at!.typical[0]).toBeLessThan(0.1);
    // Ignition is dead in ACC: 11.0 V there does not count, cranking does.
    expect(at!.worstLow!.state).toBe('START');
  });

  it('holds for the demo: the display gets enough, the converter rides through the start', () => {
    const demo = computeResults(demoPlan).analysis.arrivals;
    const of = (kind: string): Arrival => demo.find((a) => demoPlan.parts[a.part]!.kind === kind)!;
    expect(of('touch-display').worstLow!.v).toBeGreaterThan(4.75);
    expect(of('computer').worstHigh!.v).toBeLessThan(5.25);
    // Level I of ISO 16750-2: 9.5 V plateau, 1 V less for its ripple; at most 1.2 V lost on the way.
    const converter = of('step-down').worstLow!;
    expect(converter.state).toBe('START');
    expect(converter.v).toBeLessThan(8.5);
    expect(converter.v).toBeGreaterThan(6.7);
  });
});
