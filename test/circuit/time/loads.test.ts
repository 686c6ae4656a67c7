import { describe, expect, it } from 'vitest';
import type { Element } from '../../../src/circuit/index.ts';
import { near, ohms } from '../solved.ts';
import { capacitor, follow, inductor, source } from './timed.ts';

const power = (watt: number, minV: number): Element => ({ kind: 'power', id: 'p', a: 'a', b: '0', watt, minV });

describe('a constant power', () => {
  // 10 V behind 1 ohm gives 25 W at most; at 20 W from 4 V up: (10 + sqrt(100 - 80)) / 2 = 7.236 V above, 4 V x 4 V / 20 W = 0.8 ohm below.
  const sagging = (_: unknown, t: number): readonly Element[] => [
    source('feed', 'a', t < 1 ? 10 : t < 2 ? 10 - 3 * (t - 1) : t < 3 ? 7 + 3 * (t - 2) : 10, 1),
    power(20, 4),
  ];

  it('collapses where its supply sags below 2 sqrt(P R), and stays down until its supply carries it again', () => {
    const { trace, v } = follow(sagging, { untilS: 4 }, { breaks: [1, 2, 3] });
    expect(trace.outcome).toBe('done');
    near(v('a')[0]!, 5 + Math.sqrt(5), 1e-6);
    // 2 sqrt(20) = 8.944 V is reached at 1.352 s; below, the load is 0.8 ohm: V x 0.8 / 1.8.
    const k = trace.tS.findIndex((_, n) => v('a')[n]! < 4);
    near(trace.tS[k]!, 1 + (10 - Math.sqrt(80)) / 3, 1e-3);
    const low = trace.tS.indexOf(2);
    near(v('a')[low]!, (7 * 0.8) / 1.8, 1e-6);
    // From below the load is a resistance until 4 V x 1.8 / 0.8 = 9 V; above that only the upper state is left.
    near(v('a').at(-1)!, 5 + Math.sqrt(5), 1e-6);
    const back = trace.tS.findLastIndex((_, n) => v('a')[n]! < 4.01);
    near(trace.tS[back]!, 2 + 2 / 3, 1e-2);
  });

  it('is carried through a gap by a capacitor: the time is C (V0^2 - V1^2) / 2P', () => {
    const gap = (_: unknown, t: number): readonly Element[] => [
      source('feed', 'in', t < 1 || t > 1.1 ? 12 : 0, 0.01),
      { kind: 'diode', id: 'd', a: 'in', b: 'a', vF: 0.45, iF: 3, n: 1.05, tC: 25, ohm: 0.02 },
      capacitor('c', 'a', '0', 0.02),
      power(10, 4),
    ];
    const { trace, v } = follow(gap, { untilS: 1.2 }, { breaks: [1, 1.1] });
    const from = v('a')[trace.tS.indexOf(1)]!;
    const to = v('a')[trace.tS.indexOf(1.1)]!;
    near((0.02 * (from ** 2 - to ** 2)) / 20, 0.1, 5e-3);
  });
});

describe('a converter', () => {
  const converter = (on: boolean): Element => ({
    kind: 'stepdown',
    id: 'buck',
    in: 'in',
    gnd: '0',
    out: 'out',
    on,
    setV: 5,
    outOhm: 0.01,
    limitA: 3,
    dropV: 1,
    eta: [[1, 0.9]],
    quiescentA: 0,
    offA: 0,
  });

  it('charges its output capacitor at its current limit: C V / I', () => {
    const at = (_: unknown, t: number): readonly Element[] => [
      source('feed', 'in', 12, 0.05),
      converter(t > 0),
      capacitor('c', 'out', '0', 0.01, 1e-3),
      ohms('load', 'out', '0', 1e6),
    ];
    const { trace, v } = follow(at, { untilS: 0.1 }, { breaks: [0] });
    // 10 mF to 4.5 V at 3 A: 15 ms, less 1 mohm x 3 A.
    const k = trace.tS.findIndex((_, n) => v('out')[n]! >= 4.5);
    const share = (4.5 - v('out')[k - 1]!) / (v('out')[k]! - v('out')[k - 1]!);
    near(trace.tS[k - 1]! + share * (trace.tS[k]! - trace.tS[k - 1]!), (0.01 * (4.5 - 0.003)) / 3, 0.01);
    near(v('out').at(-1)!, 5, 1e-3);
  });
});

describe('what goes wrong', () => {
  const ring: readonly Element[] = [source('feed', 'a', 10, 1e-4), inductor('l', 'a', 'm', 1e-6, 1e-4), capacitor('c', 'm', '0', 1e-6)];

  it('something that oscillates for ever ends as stuck after the steps allowed, and is named', () => {
    const { trace } = follow(ring, { untilS: 1, charge: new Map([['c', 0]]), mostSteps: 500 });
    expect(trace.outcome).toBe('stuck');
    expect(trace.accepted).toBe(500);
    expect(['a', 'm']).toContain(trace.stuck!.node);
    expect(trace.stuck!.tS).toBe(trace.tS.at(-1));
  });

  it('a network without a solution is stuck at the start', () => {
    // A source of no number at all.
    const { trace } = follow([source('feed', 'a', Number.NaN), ohms('r', 'a', '0', 1)], { untilS: 1 });
    expect(trace.outcome).toBe('stuck');
    expect(trace.stuck).toEqual({ tS: 0, node: 'a', why: 'no state' });
  });

  it('is cancelled where it stands', () => {
    const shares: number[] = [];
    const { trace } = follow(ring, {
      untilS: 1,
      charge: new Map([['c', 0]]),
      onProgress: (share) => {
        shares.push(share);
        return shares.length === 40;
      },
    });
    expect(trace.outcome).toBe('cancelled');
    expect(trace.tS.length).toBe(trace.accepted + 1);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.at(-1)!).toBeCloseTo(trace.tS.at(-1)!, 9);
  });

  it('a node that is not there is said', () => {
    expect(() => follow(ring, { untilS: 1, watch: { nodes: ['nowhere'], elements: [] } })).toThrow('no node nowhere');
  });
});

it('a supply that ripples is followed through every wave', () => {
  const at = (_: unknown, t: number): readonly Element[] => [source('feed', 'a', 9 + Math.sin(2 * Math.PI * 5 * t), 0.1), ohms('load', 'a', '0', 0.9)];
  const { trace, v } = follow(at, { untilS: 10 });
  near(Math.max(...v('a')), 9, 0.01);
  near(Math.min(...v('a')), 7.2, 0.01);
  // Between two recorded points a straight line is never further off than 1 % of the supply, or nearly.
  for (let k = 1; k < trace.tS.length; k++) {
    const middle = 0.5 * (trace.tS[k - 1]! + trace.tS[k]!);
    expect(Math.abs(0.5 * (v('a')[k - 1]! + v('a')[k]!) - 0.9 * (9 + Math.sin(2 * Math.PI * 5 * middle)))).toBeLessThan(0.12);
  }
  expect(trace.accepted).toBeLessThan(600);
});

it('a part that floats on a capacitor alone is no hindrance', () => {
  const at = [source('feed', 'a', 12), ohms('r', 'a', '0', 10), capacitor('c', 'a', 'x', 1e-6), ohms('s', 'x', 'y', 5), capacitor('d', 'y', 'z', 1e-6)];
  const { trace, v } = follow(at, { untilS: 10, charge: new Map([['c', 3]]) });
  expect(trace.outcome).toBe('done');
  near(v('a').at(-1)! - v('x').at(-1)!, 3, 1e-6);
  near(v('z').at(-1)!, v('x').at(-1)!, 1e-6);
});
