import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/index.ts';
import { thermalVolt, wrightOmega } from '../../src/circuit/laws.ts';
import { feed, near, ohms, solved } from './solved.ts';

/** Lambert W by Halley's method, checked below against published values. */
function lambertW(z: number): number {
  let w = z < 1 ? z : Math.log(z);
  for (let k = 0; k < 60; k++) {
    const e = Math.exp(w);
    const f = w * e - z;
    w -= f / (e * (w + 1) - ((w + 2) * f) / (2 * w + 2));
  }
  return w;
}

/** A diode through 0.7 V at 10 mA without resistance of its own. */
const diode = (extra: Partial<Extract<Element, { kind: 'diode' }>> = {}): Element => ({
  kind: 'diode',
  id: 'd',
  a: 'a',
  b: '0',
  vF: 0.7,
  iF: 0.01,
  n: 1.5,
  tC: 25,
  ohm: 0,
  ...extra,
});

describe('the junction law', () => {
  it('has the thermal voltage 25.85 mV at 300 K', () => {
    // k T / q with the constants fixed by the SI of 2019: 25.852 mV.
    expect(1000 * thermalVolt(26.85)).toBeCloseTo(25.852, 3);
  });

  it('rests on an omega function with the published values', () => {
    // W(1) = 0.56714329... (omega constant), W(e) = 1, W(10) = 1.7455280027406994 (tables of Corless et al. 1996, from memory).
    expect(lambertW(1)).toBeCloseTo(0.5671432904097838, 14);
    for (const [z, w] of [
      [1, 0.5671432904097838],
      [Math.E, 1],
      [10, 1.7455280027406994],
    ] as const) {
      near(wrightOmega(Math.log(z)), w, 1e-14);
    }
    for (let x = -60; x < 2000; x += 0.37) {
      const w = wrightOmega(x);
      expect(Math.abs(w + Math.log(w) - x)).toBeLessThan(4e-16 * Math.max(1, Math.abs(x)) * 4);
    }
  });

  it('gives the closed form of a diode behind a resistor', () => {
    // Banwell and Jayakumar, Electronics Letters 36 (2000): I = n Vt / R W(Is R / n Vt exp((V + Is R) / n Vt)) - Is.
    const nVt = 1.5 * thermalVolt(25);
    const is = 0.01 / Math.expm1(0.7 / nVt);
    for (const volt of [0.3, 0.7, 1, 5, 12]) {
      for (const ohm of [1, 47, 1000, 100e3]) {
        const s = solved([feed(volt, 'f', 1e-4), ohms('r', 'f', 'a', ohm), diode()]);
        const r = ohm + 1e-4;
        const expected = (nVt / r) * lambertW(((is * r) / nVt) * Math.exp((volt + is * r) / nVt)) - is;
        // The solver puts 1 nS of leakage beside each junction.
        expect(Math.abs(s.i('d') - expected)).toBeLessThan(1e-9 * volt + 1e-9 * expected);
      }
    }
  });

  it('counts the series resistance inside the stated point', () => {
    const inner = diode({ vF: 1.1, iF: 1, n: 1.8, ohm: 0.15 });
    const s = solved([{ kind: 'source', id: 'feed', a: 'a', b: '0', volt: 1.1, ohm: 1e-4 }, inner]);
    near(s.i('d'), 1, 1e-3);
    // Far above, the resistance rules: one more ampere costs about 0.15 V.
    const at = (volt: number): number => solved([{ kind: 'source', id: 'feed', a: 'a', b: '0', volt, ohm: 1e-4 }, inner]).i('d');
    near(at(5) - at(4), 1 / 0.15, 0.02);
  });

  it('blocks in reverse but for nanoamperes', () => {
    const s = solved([feed(-75, 'f'), ohms('r', 'f', 'a', 10), diode()]);
    expect(s.i('d')).toBeLessThan(0);
    // 1N4148 data sheet: 5 microamperes at 75 V (read); the law stays inside.
    expect(s.i('d')).toBeGreaterThan(-5e-6);
  });

  it('takes 60 mV a decade at n = 1 and room temperature', () => {
    // Ideal junction: ln 10 k T / q = 59.2 mV at 25 degrees C.
    const at = (ohm: number): { v: number; i: number } => {
      const s = solved([feed(10, 'f'), ohms('r', 'f', 'a', ohm), diode({ n: 1 })]);
      return { v: s.v('a'), i: s.i('d') };
    };
    const low = at(94_000);
    const high = at(9300);
    expect((1000 * (high.v - low.v)) / Math.log10(high.i / low.i)).toBeCloseTo(59.2, 1);
  });

  it('finds 75 ohm for 50 mA from 5 V into 1.25 V', () => {
    // Instruction manual of an optocoupler kit (read): (5 - 1.25) / 0.05 = 75 ohm.
    const s = solved([feed(5, 'f', 1e-4), ohms('r', 'f', 'a', 75), diode({ vF: 1.25, iF: 0.05, n: 1.8 })]);
    near(s.i('d'), 0.05, 1e-5);
  });
});

describe('the breakdown law', () => {
  const zener = (bidirectional = false): Element => ({ kind: 'zener', id: 'z', a: 'a', b: '0', vBr: 5.1, ohm: 7, bidirectional });

  it('regulates at V_Z plus its slope', () => {
    // Textbook shunt regulator: I = (V - V_Z) / (R + r_z).
    const s = solved([feed(12, 'f', 1e-4), ohms('r', 'f', 'a', 220), zener()]);
    near(s.i('z'), (12 - 5.1) / (220 + 7 + 1e-4), 1e-4);
    near(s.v('a'), 5.1 + 7 * s.i('z'), 1e-4);
  });

  it('leaves a lower voltage alone', () => {
    const s = solved([feed(4, 'f'), ohms('r', 'f', 'a', 220), zener()]);
    expect(Math.abs(s.i('z'))).toBeLessThan(1e-8);
  });

  it('is a diode the other way, or the same both ways when bidirectional', () => {
    const one = solved([feed(-12, 'f'), ohms('r', 'f', 'a', 1000), zener()]);
    // Silicon junction at about 11 mA: between 0.6 and 0.9 V with 7 ohm in series.
    expect(-one.v('a')).toBeGreaterThan(0.6);
    expect(-one.v('a')).toBeLessThan(0.9);
    const both = solved([feed(-12, 'f', 1e-4), ohms('r', 'f', 'a', 220), zener(true)]);
    near(both.i('z'), -(12 - 5.1) / (220 + 7 + 1e-4), 1e-4);
  });
});

describe('the optocoupler', () => {
  const opto = (extra: Partial<Extract<Element, { kind: 'opto' }>> = {}): Element => ({
    kind: 'opto',
    id: 'o',
    a: 'a',
    k: '0',
    c: 'c',
    e: '0',
    vF: 1.2,
    iF: 0.01,
    n: 1.8,
    tC: 25,
    ctr: 0.2,
    vCeSat: 0.5,
    darkA: 5e-8,
    ...extra,
  });
  /** LED driven with a current through 1 kohm, collector held at a voltage behind a resistance. */
  const drive = (ledA: number, supply: number, ohm: number, extra: Partial<Extract<Element, { kind: 'opto' }>> = {}) =>
    solved([feed(1.2 + 1000 * ledA, 'f', 1e-4), ohms('r', 'f', 'a', 1000), { kind: 'source', id: 'pull', a: 'c', b: '0', volt: supply, ohm }, opto(extra)]);

  it('gives I_C 2 mA at I_F 10 mA and V_CE 10 V (4N25, CTR 20 % minimum)', () => {
    // Motorola 4N25 and Broadcom 4N25 data sheets (read): CTR 20 % at I_F 10 mA, V_CE 10 V; V_F 1.2 V typical at 10 mA.
    const s = drive(0.01, 10, 1e-4);
    near(s.i('o', 'led'), 0.01, 1e-4);
    near(s.i('o', 'out'), 0.002, 1e-3);
  });

  it('saturates at 0.5 V with I_F 50 mA and I_C 2 mA (4N25)', () => {
    // Same sheets (read): V_CE(sat) 0.5 V maximum at I_F 50 mA, I_C 2 mA.
    const s = drive(0.05, 10, (10 - 0.5) / 0.002);
    near(s.v('c'), 0.5, 0.05);
    near(s.i('o', 'out'), 0.002, 0.01);
  });

  it('leaks 50 nA in the dark at V_CE 10 V (4N25)', () => {
    const s = solved([ohms('r', 'a', '0', 1000), { kind: 'source', id: 'pull', a: 'c', b: '0', volt: 10, ohm: 1e-4 }, opto()]);
    expect(s.i('o', 'out')).toBeGreaterThan(4.9e-8);
    // Plus the 1 nS that stands beside each junction.
    expect(s.i('o', 'out')).toBeLessThan(6.1e-8);
  });

  it('gives 2.5 mA at I_F 5 mA and V_CE 5 V (817, CTR 50 % minimum), and 0.2 V at I_F 20 mA, I_C 1 mA', () => {
    // Sharp PC817 data sheet (read).
    near(drive(0.005, 5, 1e-4, { ctr: 0.5, vCeSat: 0.2 }).i('o', 'out'), 0.0025, 0.01);
    const saturated = drive(0.02, 5, 4.8 / 0.001, { ctr: 0.5, vCeSat: 0.2 });
    expect(saturated.v('c')).toBeLessThanOrEqual(0.2);
    expect(saturated.v('c')).toBeGreaterThan(0.1);
  });

  it('needs 22 mA of LED current to pull 1 kohm from 3.3 V down at CTR 15 %', () => {
    // Public question-and-answer thread on a dual optocoupler (read, secondary quality): I_F = 3.3 mA / 0.15 = 22 mA.
    const at = (ledA: number): number => drive(ledA, 3.3, 1000, { ctr: 0.15, vCeSat: 0.1, vF: 1.2 }).v('c');
    expect(at(0.03)).toBeLessThan(0.25);
    expect(at(0.018)).toBeGreaterThan(0.5);
  });

  it('cannot drive current backwards through its transistor', () => {
    const s = drive(0.01, -5, 1000);
    expect(Math.abs(s.i('o', 'out'))).toBeLessThan(1e-7);
  });
});
