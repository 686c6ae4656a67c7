import { describe, expect, it } from 'vitest';
import { near, ohms } from '../solved.ts';
import { capacitor, follow, inductor, source, worstOff } from './timed.ts';

/** Closed forms: any text on linear circuits, and direct integration where said. Tolerance of a run: 5 mV or 0.1 % a step. */
const FINE = { absV: 1e-5, relative: 1e-6 };

describe('capacitor and resistance', () => {
  // tau = (99 + 0.999 + 0.001) x 1 mF; no element is below 0.1 mohm, so the resistance given to the store counts.
  const at = [source('feed', 'in', 12), ohms('r', 'in', 'c', 99.989), capacitor('c', 'c', '0', 1e-3, 0.01)];

  it('charges as V (1 - exp(-t / RC)) behind its own series resistance', () => {
    const { trace, v, i } = follow(at, { untilS: 1, charge: new Map([['c', 0]]) });
    expect(trace.outcome).toBe('done');
    expect(trace.tS.at(-1)).toBe(1);
    expect(worstOff(trace, i('c'), (t) => 0.12 * Math.exp(-10 * t))).toBeLessThan(2e-4);
    expect(worstOff(trace, v('c'), (t) => 12 - 12 * (1 - 1e-4) * Math.exp(-10 * t))).toBeLessThan(0.02);
    expect(trace.accepted).toBeLessThan(60);
  });

  it('is charged at rest, and keeps it', () => {
    const { trace, v } = follow(at, { untilS: 100 });
    expect(worstOff(trace, v('c'), () => 12)).toBeLessThan(1e-9);
    // Steps grow to seconds where nothing happens.
    expect(trace.accepted).toBeLessThan(30);
  });

  it('loses its charge through its leakage', () => {
    const alone = [{ ...capacitor('c', 'c', '0', 1e-3), leakOhm: 1000 } as const];
    const { trace, v } = follow(alone, { untilS: 3, charge: new Map([['c', 10]]) });
    expect(worstOff(trace, v('c'), (t) => 10 * Math.exp(-t))).toBeLessThan(0.02);
  });

  it('too small for long steps, it follows its source and carries nothing of account: C dV/dt of 1 pF at 1 V/s is 1 pA', () => {
    const ramp = (_: unknown, t: number) => [
      source('feed', 'in', t < 20 ? 12 : t < 30 ? 12 - (t - 20) : 2),
      ohms('r', 'in', 'c', 1000),
      capacitor('c', 'c', '0', 1e-12, 0.1),
    ];
    const { trace, v, i } = follow(ramp, { untilS: 200 }, { breaks: [20, 30] });
    expect(trace.outcome).toBe('done');
    expect(worstOff(trace, v('c'), (t) => (t < 20 ? 12 : t < 30 ? 12 - (t - 20) : 2))).toBeLessThan(1e-6);
    for (const amp of i('c')) expect(Math.abs(amp)).toBeLessThan(1e-10);
    expect(trace.accepted).toBeLessThan(100);
  });

  it('follows a step of the source at a break, both sides recorded', () => {
    const stepped = (_: unknown, t: number) => [source('feed', 'in', t < 0.5 ? 5 : 12), ohms('r', 'in', 'c', 9.999), capacitor('c', 'c', '0', 1e-3)];
    const { trace, v } = follow(stepped, { untilS: 0.6 }, { breaks: [0.5] });
    const k = trace.tS.indexOf(0.5);
    expect(trace.tS[k + 1]).toBe(0.5);
    near(v('in')[k]!, 5, 1e-6);
    near(v('in')[k + 1]!, 12, 1e-3);
    near(v('c')[k + 1]!, 5, 1e-3);
    expect(worstOff(trace, v('c'), (t) => (t < 0.5 ? 5 : 12 - 7 * Math.exp(-(t - 0.5) / 0.01)))).toBeLessThan(0.02);
  });
});

describe('inductor and resistance', () => {
  it('rises as V/R (1 - exp(-R t / L)) and falls through the diode beside it', () => {
    const at = (_: unknown, t: number) => [
      source('feed', 'b', 12),
      ohms('contact', 'b', 'k', t < 0.05 ? 0.001 : Number.POSITIVE_INFINITY),
      inductor('coil', 'k', '0', 0.9, 89.998),
      { kind: 'diode' as const, id: 'd', a: '0', b: 'k', vF: 0.7, iF: 0.1, n: 1.6, tC: 25, ohm: 0.05 },
    ];
    const start = (on: unknown, t: number) => (t <= 0 ? [source('feed', 'b', 0), ...at(on, t).slice(1)] : at(on, t));
    const { trace, i, v } = follow(start, { untilS: 0.1 }, { breaks: [0, 0.05] });
    const k = trace.tS.lastIndexOf(0.05);
    trace.tS.forEach((t, n) => {
      if (n >= 2 && t <= 0.05) near(i('coil')[n]!, (12 / 90) * (1 - Math.exp(-100 * t)), 0.01);
    });
    // The current goes on where it was, now through the diode: about 0.7 V below ground.
    near(i('coil')[k]!, i('coil')[k - 1]!, 1e-4);
    near(i('d')[k]!, i('coil')[k]!, 1e-6);
    near(v('k')[k]!, -0.7, 0.05);
    expect(i('coil').at(-1)!).toBeLessThan(2e-3);
  });

  it('that loses every path ends its current at once and raises no volts without end', () => {
    const at = (_: unknown, t: number) => [
      source('feed', 'b', 12),
      ohms('contact', 'b', 'k', t < 0.05 ? 0.001 : Number.POSITIVE_INFINITY),
      inductor('coil', 'k', '0', 0.9, 90),
    ];
    const { trace, i, v } = follow(at, { untilS: 0.1 }, { breaks: [0.05] });
    expect(trace.outcome).toBe('done');
    expect(Math.abs(i('coil').at(-1)!)).toBeLessThan(1e-6);
    expect(Math.max(...v('k').map(Math.abs))).toBeLessThan(2e4);
  });
});

describe('series resonance', () => {
  const L = 1e-3;
  const C = 1e-5;
  const omega0 = 1 / Math.sqrt(L * C);
  const run = (R: number) =>
    follow([source('feed', 'a', 10, 0.5 * R), inductor('l', 'a', 'm', L, 0.25 * R), capacitor('c', 'm', '0', C, 0.25 * R)], {
      untilS: 5e-3,
      charge: new Map([['c', 0]]),
      ...FINE,
    });

  it('under-damped: rings at sqrt(1/LC - (R/2L)^2)', () => {
    const { trace, i } = run(2);
    const a = 2 / (2 * L);
    const w = Math.sqrt(omega0 ** 2 - a * a);
    expect(worstOff(trace, i('l'), (t) => (10 / (w * L)) * Math.exp(-a * t) * Math.sin(w * t))).toBeLessThan(2e-3);
  });

  it('over-damped: two exponentials', () => {
    const { trace, i } = run(100);
    const a = 100 / (2 * L);
    const w = Math.sqrt(a * a - omega0 ** 2);
    expect(worstOff(trace, i('l'), (t) => (10 / (2 * w * L)) * (Math.exp((w - a) * t) - Math.exp(-(w + a) * t)))).toBeLessThan(2e-4);
  });
});

describe('stores', () => {
  it('hold a constant power for C (V0^2 - V1^2) / 2P', () => {
    // 16 V down to 9 V at 6 W from 10 mF: 0.1458 s. By direct integration of C V dV/dt = -P.
    const { trace, v } = follow([capacitor('c', 'c', '0', 0.01), { kind: 'power', id: 'p', a: 'c', b: '0', watt: 6, minV: 4 }], {
      untilS: 0.16,
      charge: new Map([['c', 16]]),
      ...FINE,
    });
    expect(worstOff(trace, v('c'), (t) => Math.sqrt(256 - (2 * 6 * t) / 0.01))).toBeLessThan(0.005);
  });

  it('a clamp takes up what an inductor and its supply give: energy = L I^2 / 2 x V_C / (V_C - V_b)', () => {
    // A coil of 10 mH and no resistance to speak of, 2 A, clamped at 36 V from a 12 V supply: 20 mJ x 36 / 24 = 30 mJ.
    const at = (_: unknown, t: number) => [
      source('feed', 'b', 12, 1e-4),
      inductor('coil', 'b', 'd', 0.01, 1e-4),
      ohms('switch', 'd', 's', t < 0.001 ? 5.9998 : Number.POSITIVE_INFINITY),
      ohms('return', 's', '0', 1e-4),
      { kind: 'zener' as const, id: 'z', a: 'd', b: '0', vBr: 36, ohm: 1e-3 },
    ];
    const { trace, v, i } = follow(at, { untilS: 0.003 }, { breaks: [0.001] });
    let joule = 0;
    for (let k = 1; k < trace.tS.length; k++) {
      const power = (n: number): number => v('d')[n]! * i('z')[n]!;
      joule += 0.5 * (power(k - 1) + power(k)) * (trace.tS[k]! - trace.tS[k - 1]!);
    }
    near(joule, 0.03, 0.01);
  });
});
