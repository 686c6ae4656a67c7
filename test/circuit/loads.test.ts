import { describe, expect, it } from 'vitest';
import { compile, type Element, solveAtRest } from '../../src/circuit/index.ts';
import { feed, near, ohms, readings, solved } from './solved.ts';

const power = (watt: number, minV: number): Element => ({ kind: 'power', id: 'p', a: 'a', b: '0', watt, minV });

describe('constant current', () => {
  it('draws its current above its least volts and fades below', () => {
    const at = (volt: number): number =>
      solved([
        { kind: 'source', id: 'feed', a: 'a', b: '0', volt, ohm: 1e-3 },
        { kind: 'current', id: 'l', a: 'a', b: '0', amp: 0.4, minV: 4 },
      ]).i('l');
    near(at(5), 0.4, 1e-6);
    near(at(2), 0.2, 1e-3);
    expect(Math.abs(at(0))).toBeLessThan(1e-12);
  });
});

describe('constant power', () => {
  it('solves the quadratic V = (V_th + sqrt(V_th^2 - 4 R P)) / 2 below the greatest power', () => {
    // Maximum power transfer: none above V^2 / 4R; for 4.7 ohm behind 9 V that is 4.31 W.
    for (const watt of [0.1, 1, 2, 3, 4, 4.3]) {
      // From 4.6 V up, above half of 9 V: the way up from zero is free.
      const s = solved([feed(9, 'a', 4.7), power(watt, 4.6)]);
      near(s.v('a'), (9 + Math.sqrt(81 - 4 * 4.7 * watt)) / 2, 1e-6);
      near(s.i('p') * s.v('a'), watt, 1e-6);
    }
  });

  it('collapses onto its low branch above the greatest power', () => {
    const s = solved([feed(9, 'a', 4.7), power(5, 3)]);
    // Below minV the load is a resistance minV^2 / P = 1.8 ohm.
    near(s.v('a'), (9 * 1.8) / (1.8 + 4.7), 1e-6);
  });

  it('stays low where raising the source from zero would leave it, although a higher state exists', () => {
    // 10 V behind 1 ohm, 16 W from 1 V up: P = 0.64 of V^2/4R, the upper state is 8 V. On the way up the load is
    // 1/16 ohm; at its least 1 V it wants 16 A, which the source gives only from 17 V on.
    const s = solved([feed(10, 'a', 1), power(16, 1)]);
    near(s.v('a'), (10 * (1 / 16)) / (1 + 1 / 16), 1e-6);
    // With least volts of 4 V the way up is free: 4 A at 4 V needs 8 V.
    near(solved([feed(10, 'a', 1), power(16, 4)]).v('a'), 8, 1e-6);
  });

  it('reaches the same branch from any start', () => {
    for (const watt of [1, 3, 4.2, 5, 16]) {
      for (const minV of [1, 3, 5]) {
        const elements = [feed(10, 'a', 1), power(watt, minV)];
        const network = compile(elements);
        const cold = solveAtRest(network, elements);
        for (const start of [0, 0.5, 2, 5, 8, 9.9, 40]) {
          const warm = solveAtRest(network, elements, { start: Float64Array.of(start) });
          expect(warm.status).toBe('solved');
          near(warm.volts[0]!, cold.volts[0]!, 1e-6);
        }
      }
    }
  });

  it('hangs on a converter whose limit its start-up current exceeds', () => {
    // 12 W from 2 V up wants 6 A at 2 V; the converter gives 3 A, enough for 12 W at 5 V only once it is up.
    const network = (limitA: number): Element[] => [
      feed(12, 'in', 0.01),
      { kind: 'stepdown', id: 'c', in: 'in', gnd: '0', out: 'a', on: true, setV: 5, outOhm: 0.01, limitA, dropV: 1, eta: [[1, 0.9]], quiescentA: 0, offA: 0 },
      power(12, 2),
    ];
    const low = solved(network(3));
    near(low.i('c', 'out'), 3, 1e-4);
    near(low.v('a'), (3 * 4) / 12, 1e-4);
    const up = solved(network(6.5));
    expect(up.v('a')).toBeGreaterThan(4.9);
  });
});

describe('floating islands', () => {
  it('are tied once, reported, and carry their own currents', () => {
    const elements: Element[] = [
      feed(12, 'a'),
      ohms('switch', 'a', 'b', Number.POSITIVE_INFINITY),
      // An island with a source of its own.
      { kind: 'source', id: 'cell', a: 'b', b: 'c', volt: 3, ohm: 1 },
      ohms('load', 'b', 'c', 2),
      ohms('stub', 'a', 'd', 1),
    ];
    const s = solved(elements);
    const names = [...s.solution.floating].map((k) => s.network.nodes[k]).sort();
    expect(names).toEqual(['b', 'c']);
    near(s.i('load'), 1, 1e-12);
    near(s.v('d'), 12, 1e-9);
  });

  it('appear and vanish with a contact', () => {
    const at = (ohm: number) => [feed(12, 'a'), ohms('contact', 'a', 'b', ohm), ohms('wire', 'b', 'c', 0.01)];
    const network = compile(at(0.01));
    expect(solveAtRest(network, at(0.01)).floating.size).toBe(0);
    const open = solveAtRest(network, at(Number.POSITIVE_INFINITY));
    expect(open.status).toBe('solved');
    expect(open.floating.size).toBe(2);
    const closed = readings(network, at(0.01), solveAtRest(network, at(0.01), { start: open.volts }));
    near(closed.v('c'), 12, 1e-9);
  });

  it('include the output of a converter that is off, not a node behind a blocking diode', () => {
    const s = solved([
      feed(12, 'in'),
      { kind: 'stepdown', id: 'c', in: 'in', gnd: '0', out: 'out', on: false, setV: 5, outOhm: 0.01, limitA: 3, dropV: 1, eta: [], quiescentA: 0, offA: 0 },
      ohms('wire', 'out', 'far', 0.1),
      { kind: 'diode', id: 'd', a: 'k', b: 'in', vF: 0.7, iF: 0.01, n: 1.5, tC: 25, ohm: 0 },
    ]);
    expect([...s.solution.floating].map((k) => s.network.nodes[k]).sort()).toEqual(['far', 'out']);
  });

  it('leave a network without any connection to ground solvable', () => {
    const s = solved([{ kind: 'source', id: 'cell', a: 'x', b: 'y', volt: 1.5, ohm: 0.5 }, ohms('r', 'x', 'y', 1)]);
    expect(s.solution.floating.size).toBe(2);
    near(s.i('r'), 1, 1e-12);
  });
});

describe('misuse', () => {
  it('throws on doubled ids, other elements, unknown ports', () => {
    expect(() => compile([ohms('r', 'a', '0', 1), ohms('r', 'b', '0', 1)])).toThrow(/r/);
    const network = compile([feed(1, 'a')]);
    expect(() => solveAtRest(network, [])).toThrow(/0 elements/);
    expect(() => solveAtRest(network, [ohms('feed', 'a', '0', 1)])).toThrow(/feed/);
    const s = solved([feed(1, 'a'), { kind: 'linear', id: 'l', in: 'a', gnd: '0', out: 'b', setV: 3, outOhm: 0.1, limitA: 1, dropV: 1, quiescentA: 0 }]);
    expect(() => s.i('l', 'gate')).toThrow(/gate/);
  });
});
