import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { audit, compile, type Element, solveAtRest } from '../../src/circuit/index.ts';
import { planNetwork } from '../bench/planNetwork.ts';
import { runs } from '../runs.ts';
import { randomNetwork } from './randomNetwork.ts';

/** Kirchhoff's current law to 1 nA + 1e-9 of the largest current there, powers to 1e-6 of their sum + 1 nW. */
function expectLawful(network: ReturnType<typeof compile>, elements: readonly Element[], solution: ReturnType<typeof solveAtRest>): void {
  const found = audit(network, elements, solution);
  expect(found.worstKclA).toBeLessThanOrEqual(1e-9 + 1e-9 * found.largestA);
  expect(found.powerImbalanceW).toBeLessThanOrEqual(1e-9 + 1e-6 * found.grossPowerW);
}

const size = (volts: Float64Array): number => volts.reduce((most, v) => Math.max(most, Math.abs(v)), 1);

describe('laws on random networks of all elements', () => {
  it('currents sum to zero at every node and powers over all elements', () => {
    fc.assert(
      fc.property(randomNetwork(12), (elements) => {
        const network = compile(elements);
        const solution = solveAtRest(network, elements);
        expect(solution.status).toBe('solved');
        expectLawful(network, elements, solution);
      }),
      { numRuns: runs(200) },
    );
  });

  it('hold too where optocouplers may feed themselves, whenever there is a solution', () => {
    fc.assert(
      fc.property(randomNetwork(8, true), (elements) => {
        const network = compile(elements);
        const solution = solveAtRest(network, elements);
        if (solution.status === 'solved') expectLawful(network, elements, solution);
        else expect(solution.worstNode).not.toBeNull();
      }),
      { numRuns: runs(100) },
    );
  });

  it('the order of the elements does not matter', () => {
    const shuffled = randomNetwork(10).chain((elements) =>
      fc.tuple(fc.constant(elements), fc.shuffledSubarray(elements, { minLength: elements.length, maxLength: elements.length })),
    );
    fc.assert(
      fc.property(shuffled, ([elements, other]) => {
        const network = compile(elements);
        const otherNetwork = compile(other);
        const a = solveAtRest(network, elements);
        const b = solveAtRest(otherNetwork, other);
        expect(b.status).toBe(a.status);
        const least = 1e-6 * size(a.volts);
        for (const [name, k] of network.nodeIndex) {
          if (k >= 0) expect(Math.abs(a.volts[k]! - b.volts[otherNetwork.nodeIndex.get(name)!]!)).toBeLessThan(least);
        }
      }),
      { numRuns: runs(100) },
    );
  });

  it('a warm start ends where a cold one does', () => {
    fc.assert(
      fc.property(randomNetwork(10), fc.double({ min: 0.2, max: 1.6, noNaN: true }), (elements, share) => {
        const network = compile(elements);
        const cold = solveAtRest(network, elements);
        const other = solveAtRest(
          network,
          elements.map((e) => (e.kind === 'source' ? { ...e, volt: share * e.volt } : e)),
        );
        const warm = solveAtRest(network, elements, { start: other.volts });
        expect(warm.status).toBe(cold.status);
        const least = 1e-6 * size(cold.volts);
        cold.volts.forEach((v, k) => {
          expect(Math.abs(v - warm.volts[k]!)).toBeLessThan(least);
        });
      }),
      { numRuns: runs(100) },
    );
  });

  it('a branch that ends a hair below the full volts is left for the one that is there', () => {
    // Found at random: below 7.7274 V the converter starves at 0.8 V; just above, the motion away from there creeps.
    const elements: Element[] = [
      { kind: 'source', id: 'battery', a: 'n1', b: '0', volt: 7.727668849188765, ohm: 1 },
      { kind: 'resistor', id: 'wire0', a: 'n1', b: 'n2', ohm: 1 },
      { kind: 'resistor', id: 'wire1', a: 'n1', b: 'n3', ohm: 99.99923620564691 },
      ...[4, 5, 6, 7, 8, 9, 10].map((n) => ({ kind: 'resistor' as const, id: `wire${n - 2}`, a: 'n1', b: `n${n}`, ohm: 1 })),
      {
        kind: 'stepdown',
        id: 'stepdown0',
        in: 'n2',
        gnd: 'n3',
        out: '0',
        on: true,
        setV: 3,
        outOhm: 0.10000000000000002,
        limitA: 2.686902806342692,
        dropV: 0.1994135582840654,
        eta: [
          [0.1, 0.8],
          [1, 0.92],
          [3, 0.88],
        ],
        quiescentA: 0.005,
        offA: 0.0001,
      },
      { kind: 'inductor', id: 'inductor1', a: 'n5', b: '0', henry: 0.001, ohm: 1 },
      { kind: 'power', id: 'power2', a: 'n3', b: '0', watt: 1, minV: 3.1192442716089666 },
      { kind: 'current', id: 'current3', a: 'n6', b: '0', amp: 1, minV: 0.5 },
      { kind: 'capacitor', id: 'capacitor4', a: 'n3', b: 'n5', farad: 0.001, esrOhm: 0.05, leakOhm: 53248857.52161247 },
      { kind: 'current', id: 'current5', a: 'n5', b: 'n2', amp: 1, minV: 2.835471269410492 },
    ];
    const network = compile(elements);
    const solution = solveAtRest(network, elements);
    expect(solution.status).toBe('solved');
    expectLawful(network, elements, solution);
  });

  it('a start of any size, or of no number, ends there too', () => {
    fc.assert(
      fc.property(randomNetwork(6), fc.double(), (elements, volt) => {
        const network = compile(elements);
        const cold = solveAtRest(network, elements);
        const warm = solveAtRest(network, elements, { start: new Float64Array(network.nodes.length).fill(volt) });
        expect(warm.status).toBe(cold.status);
        const least = 1e-6 * size(cold.volts);
        cold.volts.forEach((v, k) => {
          expect(Math.abs(v - warm.volts[k]!)).toBeLessThan(least);
        });
      }),
      { numRuns: runs(50) },
    );
  });
});

describe('a large plan', () => {
  it('is solved at 27 supplies and loads, and lawful each time', () => {
    const plans = Array.from({ length: 27 }, (_, k) => planNetwork(7, 11 + 0.5 * (k % 9), 0.5 + 0.5 * Math.floor(k / 9)));
    const network = compile(plans[0]!);
    expect(network.nodes.length).toBeGreaterThan(290);
    let start: Float64Array | undefined;
    for (const elements of plans) {
      const solution = solveAtRest(network, elements, { start });
      expect(solution.status).toBe('solved');
      expectLawful(network, elements, solution);
      start = solution.volts;
    }
  });

  it('leaves the elements and the start as they were', () => {
    const elements = Object.freeze(planNetwork(1, 12).map((e) => Object.freeze(e)));
    const network = compile(elements);
    const first = solveAtRest(network, elements);
    const start = first.volts.slice();
    solveAtRest(network, planNetwork(1, 15), { start: first.volts });
    expect([...first.volts]).toEqual([...start]);
  });
});
