import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compile, type Element, sensitivities, solveAtRest, type Target, targetValue, worst } from '../../src/circuit/index.ts';
import { scaled } from '../../src/circuit/scaled.ts';
import { runs } from '../runs.ts';
import { randomNetwork } from './randomNetwork.ts';
import { feed, near, ohms, solved } from './solved.ts';

/** Tolerances on the figures that matter of every kind. */
const FIGURES: Partial<Record<Element['kind'], readonly string[]>> = {
  resistor: ['ohm'],
  source: ['volt', 'ohm'],
  current: ['amp'],
  power: ['watt'],
  diode: ['vF'],
  zener: ['vBr', 'ohm'],
  opto: ['ctr', 'vF', 'vCeSat'],
  stepdown: ['setV', 'outOhm', 'dropV', 'quiescentA', 'eta'],
  linear: ['setV', 'outOhm', 'dropV'],
  inductor: ['ohm'],
};
const tolerant = (e: Element, share: number): Element => ({ ...e, tol: Object.fromEntries((FIGURES[e.kind] ?? []).map((p) => [p, share])) });

const value = (elements: readonly Element[], target: Target): number => {
  const network = compile(elements);
  const solution = solveAtRest(network, elements);
  return solution.status === 'solved' ? targetValue(network, elements, solution, target) : Number.NaN;
};

describe('sensitivities', () => {
  it('are those of the divider in closed form', () => {
    // V = E R2 / (R1 + R2): dV/dE = R2 / (R1 + R2), dV/dR1 = -E R2 / (R1 + R2)^2, dV/dR2 = E R1 / (R1 + R2)^2.
    const elements = [feed(12, 'a', 1), ohms('r1', 'a', 'b', 299), ohms('r2', 'b', '0', 100)].map((e) => tolerant(e, 0.01));
    const s = solved(elements);
    const found = sensitivities(s.network, elements, s.solution, { plus: 'b', minus: '0' });
    const of = (element: string, param: string): number => found.find((f) => f.element === element && f.param === param)!.value;
    near(of('feed', 'volt'), 100 / 400, 1e-8);
    near(of('r1', 'ohm'), (-12 * 100) / 400 ** 2, 1e-8);
    near(of('feed', 'ohm'), (-12 * 100) / 400 ** 2, 1e-8);
    near(of('r2', 'ohm'), (12 * 300) / 400 ** 2, 1e-8);
    expect(found).toHaveLength(4);
  });

  it('agree with finite differences on random networks', () => {
    let compared = 0;
    fc.assert(
      fc.property(randomNetwork(7), fc.nat(), (plain, pick) => {
        const elements = plain.map((e) => tolerant(e, 0.01));
        const s = solved(elements);
        const e = elements[pick % elements.length]!;
        const target: Target = pick % 2 ? { plus: `n${1 + (pick % 7)}`, minus: '0' } : { element: e.id };
        for (const found of sensitivities(s.network, elements, s.solution, target)) {
          const figure = (elements.find((x) => x.id === found.element) as unknown as Record<string, unknown>)[found.param];
          const size = typeof figure === 'number' ? figure : 1;
          if (!Number.isFinite(size)) continue;
          const moved = (factor: number): number =>
            value(
              elements.map((x) => (x.id === found.element ? scaled(x, found.param, factor) : x)),
              target,
            );
          const at = value(elements, target);
          const up = (moved(1 + 1e-5) - at) / 1e-5;
          const down = (at - moved(1 - 1e-5)) / 1e-5;
          // At a corner of a law both sides differ: no derivative there to compare with.
          if (!(Math.abs(up - down) < 1e-3 * (Math.abs(up) + Math.abs(down)) + 1e-7)) continue;
          compared++;
          expect(Math.abs(found.value * size - (up + down) / 2)).toBeLessThan(5e-3 * Math.abs(up + down) + 3e-5 * (1 + Math.abs(at)));
        }
      }),
      // Shrinking a failure would solve for minutes; what fails first is small enough to look at.
      { numRuns: runs(40), endOnFailure: true },
    );
    expect(compared).toBeGreaterThan(100);
  });

  it('see a stiff converter under a light load as its set volts', () => {
    // Within microvolts of its set volts such a converter goes from its limit to nothing.
    const elements: Element[] = [
      feed(12, 'in'),
      {
        kind: 'stepdown',
        id: 'c',
        in: 'in',
        gnd: '0',
        out: 'out',
        on: true,
        setV: 5,
        outOhm: 0,
        limitA: 3,
        dropV: 1,
        eta: [],
        quiescentA: 0,
        offA: 0,
        tol: { setV: 0.02 },
      },
      ohms('load', 'out', '0', 5000),
    ];
    const s = solved(elements);
    near(sensitivities(s.network, elements, s.solution, { plus: 'out', minus: '0' })[0]!.value, 1, 1e-4);
  });

  it('count the direct effect on an element whose own current is asked for', () => {
    const elements = [feed(12, 'a', 1e-4), tolerant(ohms('r', 'a', '0', 6), 0.1)];
    const s = solved(elements);
    near(sensitivities(s.network, elements, s.solution, { element: 'r' })[0]!.value, -12 / 36, 1e-3);
    expect(() => sensitivities(s.network, elements, s.solution, { element: 'none' })).toThrow(/none/);
  });
});

describe('worst case', () => {
  const divider: Element[] = [
    { ...feed(12, 'a', 1e-3), tol: { volt: 0.05 } },
    { ...ohms('r1', 'a', 'b', 300), tol: { ohm: 0.05 } },
    { ...ohms('r2', 'b', '0', 100), tol: { ohm: [0.9, 1.2] } },
  ];

  it('puts every tolerance to the side that its sign picks', () => {
    const network = compile(divider);
    const low = worst(network, divider, { plus: 'b', minus: '0' }, 'min');
    near(low.value, (12 * 0.95 * 90) / (300 * 1.05 + 90 + 1e-3), 1e-9);
    expect(low.corner).toMatchObject([
      { element: 'feed', param: 'volt', factor: 0.95 },
      { element: 'r1', param: 'ohm', factor: 1.05 },
      { element: 'r2', param: 'ohm', factor: 0.9 },
    ]);
    // To first order 5 % of the supply moves a quarter of 12 V by 0.15 V.
    expect(low.corner[0]!.shift).toBeCloseTo(-0.15, 4);
    const high = worst(network, divider, { plus: 'b', minus: '0' }, 'max');
    near(high.value, (12 * 1.05 * 120) / (300 * 0.95 + 120 + 1e-3), 1e-9);
    // The cornered elements give that value by themselves.
    near(value(high.elements, { plus: 'b', minus: '0' }), high.value, 1e-12);
  });

  it('is the worst of all corners of a feed with converter, diode and load', () => {
    const elements: Element[] = [
      { ...feed(12, 'b', 0.05), tol: { volt: 0.04 } },
      { kind: 'diode', id: 'guard', a: 'b', b: 'in', vF: 0.45, iF: 3, n: 1.1, tC: 25, ohm: 0.02, tol: { vF: 0.15 } },
      {
        kind: 'stepdown',
        id: 'c',
        in: 'in',
        gnd: '0',
        out: 'out',
        on: true,
        setV: 5.1,
        outOhm: 0.02,
        limitA: 4,
        dropV: 1,
        eta: [[1, 0.88]],
        quiescentA: 0.005,
        offA: 0,
        tol: { setV: 0.02, outOhm: 0.3 },
      },
      { ...ohms('tail', 'out', 'load', 0.06), tol: { ohm: 0.2 } },
      { kind: 'power', id: 'board', a: 'load', b: '0', watt: 9, minV: 3, tol: { watt: 0.25 } },
    ];
    const network = compile(elements);
    const figures = elements.flatMap((e) => Object.entries(e.tol ?? {}).map(([param, share]) => ({ id: e.id, param, share: share as number })));
    for (const target of [{ plus: 'load', minus: '0' }, { element: 'board' }, { element: 'feed' }] as const) {
      for (const side of ['min', 'max'] as const) {
        let extreme = Number.NaN;
        for (let mask = 0; mask < 2 ** figures.length; mask++) {
          const cornered = figures.reduce<readonly Element[]>(
            (list, f, k) => list.map((e) => (e.id === f.id ? scaled(e, f.param, mask & (1 << k) ? 1 + f.share : 1 - f.share) : e)),
            elements,
          );
          const v = value(cornered, target);
          if (Number.isNaN(extreme) || (side === 'min' ? v < extreme : v > extreme)) extreme = v;
        }
        near(worst(network, elements, target, side).value, extreme, 1e-9);
      }
    }
  });

  it('follows a converter into drop-out, where the supply begins to matter', () => {
    // Regulating, the input has no influence; at the corner of setV and input together it has.
    const elements: Element[] = [
      { kind: 'source', id: 'feed', a: 'in', b: '0', volt: 6.25, ohm: 1e-3, tol: { volt: 0.1 } },
      {
        kind: 'stepdown',
        id: 'c',
        in: 'in',
        gnd: '0',
        out: 'out',
        on: true,
        setV: 5.1,
        outOhm: 1e-3,
        limitA: 4,
        dropV: 1,
        eta: [[1, 0.9]],
        quiescentA: 0,
        offA: 0,
        tol: { setV: 0.03 },
      },
      ohms('load', 'out', '0', 10),
    ];
    const found = worst(compile(elements), elements, { plus: 'out', minus: '0' }, 'min');
    // 6.25 x 0.9 - 1 = 4.625 V, lower than 5.1 x 0.97 = 4.947 V.
    near(found.value, 4.625, 1e-3);
  });

  it('leaves everything nominal without tolerances', () => {
    const elements = [feed(12, 'a'), ohms('r', 'a', '0', 4)];
    const found = worst(compile(elements), elements, { element: 'r' }, 'max');
    expect(found.corner).toEqual([]);
    near(found.value, 12 / 4.001, 1e-9);
  });
});
