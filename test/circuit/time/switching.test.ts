import { describe, expect, it } from 'vitest';
import type { Device, Element } from '../../../src/circuit/index.ts';
import { near, ohms } from '../solved.ts';
import { capacitor, follow, inductor, source } from './timed.ts';

const OPEN = Number.POSITIVE_INFINITY;
const above = (id: string, node: string, volt: number, operateS = 0, releaseS = 0): Device => ({
  id,
  wants: (probe) => probe.volts(node) > volt,
  operateS,
  releaseS,
});
type On = (id: string) => boolean;

describe('thresholds', () => {
  it('on a charging capacitor are found within 1 ms of t = RC ln(V / (V - V_th))', () => {
    // 12 V, 1 s: 4 V after 0.4055 s, 8 V after 1.0986 s, 11 V after 2.4849 s.
    const at = [source('feed', 'in', 12), ohms('r', 'in', 'c', 999.9989), capacitor('c', 'c', '0', 1e-3)];
    for (const volt of [4, 8, 11]) {
      const { trace } = follow(at, { untilS: 5, charge: new Map([['c', 0]]), absV: 1e-4, relative: 1e-5 }, { devices: [above('d', 'c', volt)] });
      expect(trace.events.map((e) => e.on)).toEqual([true]);
      expect(Math.abs(trace.events[0]!.tS - Math.log(12 / (12 - volt)))).toBeLessThan(1e-3);
    }
  });

  it('on a supply that rises straight, with nothing stored, are found within 1 ms although steps are seconds long', () => {
    const at = (_: On, t: number): readonly Element[] => [
      source('feed', 'in', 3 * Math.min(t, 4), 0.01),
      { kind: 'diode', id: 'd', a: 'in', b: 'out', vF: 0.7, iF: 0.1, n: 1.6, tC: 25, ohm: 0.1 },
      ohms('load', 'out', '0', 100),
    ];
    const { trace } = follow(at, { untilS: 10 }, { devices: [above('d', 'out', 8)], breaks: [4] });
    // At 8 V the load takes 80 mA: diode 0.7 V - n Vt ln(100 / 80) - 20 mA x 0.1 ohm, source 0.8 mV.
    const diodeV = 0.7 - 1.6 * 0.025693 * Math.log(100 / 80) - 0.02 * 0.1;
    expect(Math.abs(trace.events[0]!.tS - (8 + diodeV + 0.0008) / 3)).toBeLessThan(1e-3);
    expect(trace.accepted).toBeLessThan(30);
  });

  it('by a current are found too', () => {
    // 12 V on 0.9 H and 90 ohm: i = 0.1333 (1 - exp(-100 t)); 70 mA after 7.444 ms.
    const at = (_: On, t: number): readonly Element[] => [source('feed', 'b', t > 0 ? 12 : 0), inductor('coil', 'b', '0', 0.9, 89.999)];
    const pull: Device = { id: 'relay', wants: (probe) => probe.amps('coil') > 0.07, operateS: 0, releaseS: 0 };
    const { trace } = follow(at, { untilS: 0.1 }, { devices: [pull], breaks: [0] });
    expect(Math.abs(trace.events[0]!.tS - -Math.log(1 - (0.07 * 90) / 12) / 100)).toBeLessThan(1e-4);
  });

  it('passed for a seventh of every wave of a ripple are found each time', () => {
    // 9 V + 1 V sin(2 pi 5 t) is above 9.9 V between asin(0.9) and pi - asin(0.9): 28.7 ms of 200.
    const at = (_: On, t: number): readonly Element[] => [source('feed', 'in', 9 + Math.sin(2 * Math.PI * 5 * t), 1e-4), ohms('load', 'in', '0', 1e4)];
    const { trace } = follow(at, { untilS: 4 }, { devices: [above('d', 'in', 9.9)] });
    expect(trace.events).toHaveLength(40);
    trace.events.forEach(({ tS, on }, k) => {
      const rad = on ? Math.asin(0.9) : Math.PI - Math.asin(0.9);
      expect(Math.abs(tS - (rad / (2 * Math.PI) + Math.floor(k / 2)) / 5)).toBeLessThan(1e-3);
    });
  });

  it('passed twice within what could be one step are seen when the input has corners there', () => {
    const dip = (_: On, t: number): readonly Element[] => [source('feed', 'in', t > 50 && t < 50.005 ? 4 : 12), ohms('load', 'in', '0', 10)];
    const { trace } = follow(dip, { untilS: 100 }, { devices: [above('d', 'in', 6)], breaks: [50, 50.005] });
    expect(trace.events).toEqual([
      { tS: 0, device: 'd', on: true },
      { tS: 50, device: 'd', on: false },
      { tS: 50.005, device: 'd', on: true },
    ]);
  });
});

describe('delays', () => {
  const lamp =
    (volts: (t: number) => number) =>
    (on: On, t: number): readonly Element[] => [
      source('feed', 'in', volts(t)),
      ohms('contact', 'in', 'out', on('timer') ? 0.01 : OPEN),
      ohms('lamp', 'out', '0', 6),
    ];

  it('end exactly when they end', () => {
    const { trace, v } = follow(
      lamp((t) => (t < 7 ? 0 : 12)),
      { untilS: 120 },
      { devices: [above('timer', 'in', 6, 90)], breaks: [7] },
    );
    expect(trace.events).toEqual([{ tS: 97, device: 'timer', on: true }]);
    const k = trace.tS.indexOf(97);
    expect(trace.tS[k + 1]).toBe(97);
    expect(v('out')[k]!).toBeLessThan(1e-6);
    near(v('out')[k + 1]!, 12, 0.01);
  });

  it('start anew when the wish is interrupted, however briefly', () => {
    // 90 s from 5 s would end at 95; interrupted at 60 for 10 ms it ends at 150.01.
    const volts = (t: number): number => (t < 5 || (t > 60 && t < 60.01) ? 0 : 12);
    const { trace } = follow(lamp(volts), { untilS: 200 }, { devices: [above('timer', 'in', 6, 90)], breaks: [5, 60, 60.01] });
    expect(trace.events).toHaveLength(1);
    near(trace.events[0]!.tS, 150.01, 1e-12);
  });

  it('do not count what an end of the run cuts off', () => {
    const { trace } = follow(
      lamp(() => 12),
      { untilS: 89.999 },
      { devices: [above('timer', 'in', 6, 90)] },
    );
    expect(trace.events).toEqual([]);
    expect(trace.tS.at(-1)).toBe(89.999);
  });

  it('of operating and releasing are two', () => {
    const { trace } = follow(
      lamp((t) => (t < 1 || t > 3 ? 0 : 12)),
      { untilS: 5 },
      { devices: [above('timer', 'in', 6, 0.02, 0.5)], breaks: [1, 3] },
    );
    expect(trace.events.map((e) => [e.tS, e.on])).toEqual([
      [1.02, true],
      [3.5, false],
    ]);
  });

  it('that end together let one switch after the other, the shorter first, and ask again in between', () => {
    // Two relays, each opening the other's coil: rivals end with one.
    const at = (on: On, t: number): readonly Element[] => [
      source('feed', 'b', t < 1 ? 0 : 12),
      ohms('o1', 'b', 'k1', on('r2') ? OPEN : 0.01),
      ohms('coil1', 'k1', '0', 90),
      ohms('o2', 'b', 'k2', on('r1') ? OPEN : 0.01),
      ohms('coil2', 'k2', '0', 90),
    ];
    const { trace } = follow(at, { untilS: 2 }, { devices: [above('r2', 'k2', 8, 0.01), above('r1', 'k1', 8, 0.01)], breaks: [1] });
    expect(trace.events).toEqual([{ tS: 1.01, device: 'r1', on: true }]);
  });
});

describe('a relay', () => {
  it('holds itself by its own contact', () => {
    const at = (on: On, t: number): readonly Element[] => [
      source('feed', 'b', 12),
      ohms('button', 'b', 'k', t > 1 && t < 1.2 ? 0.01 : OPEN),
      ohms('own', 'b', 'k', on('r') ? 0.01 : OPEN),
      inductor('coil', 'k', '0', 0.3, 90),
      { kind: 'diode', id: 'd', a: '0', b: 'k', vF: 0.7, iF: 0.1, n: 1.6, tC: 25, ohm: 0.05 },
    ];
    const r: Device = { id: 'r', wants: (probe, on) => probe.amps('coil') > (on ? 0.015 : 0.07), operateS: 0.01, releaseS: 0.005 };
    const { trace } = follow(at, { untilS: 3 }, { devices: [r], breaks: [1, 1.2] });
    expect(trace.events.map((e) => e.on)).toEqual([true]);
    expect(trace.states.get('r')).toBe(true);
  });

  it('that opens its own coil buzzes with its two times, for as long as asked', () => {
    const at = (on: On): readonly Element[] => [source('feed', 'b', 12), ohms('nc', 'b', 'k', on('r') ? OPEN : 0.01), ohms('coil', 'k', '0', 90)];
    const { trace } = follow(at, { untilS: 1.5 }, { devices: [above('r', 'k', 8, 0.01, 0.005)] });
    expect(trace.outcome).toBe('done');
    // 15 ms a turn.
    expect(trace.events).toHaveLength(200);
    near(trace.events[199]!.tS - trace.events[197]!.tS, 0.015, 1e-9);
  });

  it('that takes no time about it does not hang the run', () => {
    const at = (on: On): readonly Element[] => [source('feed', 'b', 12), ohms('nc', 'b', 'k', on('r') ? OPEN : 0.01), ohms('coil', 'k', '0', 90)];
    const { trace } = follow(at, { untilS: 180 }, { devices: [above('r', 'k', 8)] });
    expect(trace.outcome).toBe('done');
    expect(trace.tS.at(-1)).toBe(180);
    // On and off at one instant, then left off for 1 ms, 2 ms ... 512 ms (1.023 s in all) and then 1 s each time.
    expect(trace.events).toHaveLength(2 * (11 + 178));
    expect(trace.states.get('r')).toBe(false);
  });

  it('that has chattered is free again when an input changes', () => {
    const at = (on: On, t: number): readonly Element[] => [
      source('feed', 'b', 12),
      ohms('nc', 'b', 'k', on('r') && t < 10.1 ? OPEN : 0.01),
      ohms('coil', 'k', '0', 90),
    ];
    const { trace } = follow(at, { untilS: 12 }, { devices: [above('r', 'k', 8)], breaks: [10.1] });
    expect(trace.events.at(-1)).toEqual({ tS: 10.1, device: 'r', on: true });
  });
});

describe('under-voltage lock-out', () => {
  it('with a capacitor behind a weak supply swings with the period of its charge and discharge', () => {
    // 12 V behind 100 ohm, 1 mF, off below 6 V, on above 9 V; the load takes 0.5 A.
    // Charge 6 to 9 V towards 12 V: tau ln 2. Discharge 9 to 6 V towards 12 - 50 = -38 V: tau ln(47 / 44). tau = 0.1 s.
    const at = (on: On): readonly Element[] => [
      source('feed', 'in', 12, 99.9999),
      capacitor('c', 'in', '0', 1e-3, 1e-4),
      { kind: 'current', id: 'load', a: 'in', b: '0', amp: on('uvlo') ? 0.5 : 0, minV: 1 },
    ];
    const uvlo: Device = { id: 'uvlo', wants: (probe, on) => probe.volts('in') > (on ? 6 : 9), operateS: 0, releaseS: 0 };
    const { trace } = follow(at, { untilS: 3, charge: new Map([['c', 6]]) }, { devices: [uvlo] });
    const ons = trace.events.filter((e) => e.on).map((e) => e.tS);
    expect(ons.length).toBeGreaterThan(30);
    const period = (ons.at(-1)! - ons[10]!) / (ons.length - 11);
    near(period, 0.1 * (Math.log(2) + Math.log(47 / 44)), 0.01);
  });
});

it('devices see each other', () => {
  const at = (on: On): readonly Element[] => [source('feed', 'in', 12), ohms('lamp', 'in', '0', on('second') ? 6 : 12)];
  const second: Device = { id: 'second', wants: (probe) => probe.on('first'), operateS: 2, releaseS: 0 };
  const { trace } = follow(at, { untilS: 10 }, { devices: [second, above('first', 'in', 6, 1)] });
  expect(trace.events).toEqual([
    { tS: 1, device: 'first', on: true },
    { tS: 3, device: 'second', on: true },
  ]);
});
