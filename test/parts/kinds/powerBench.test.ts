import { describe, expect, it } from 'vitest';
import { partKind } from '../../../src/parts/index.ts';
import type { Situation } from '../../../src/parts/types.ts';
import type { Values } from '../../../src/plan/types.ts';
import { ohms, settleBench, solveBench, source } from '../bench.ts';
import { behave } from '../situation.ts';

const make =
  (name: string, typed: Values = {}, more: Partial<Situation> = {}) =>
  (on: (id: string) => boolean) =>
    behave(partKind(name), typed, { ...more, on });

describe('surge clamp on the bench', () => {
  const amps = (volt: number, typed: Values = {}) =>
    solveBench([source('s', 'K', '0', volt, 0.001), ohms('g', 'A', '0', 1e-4), ...behave(partKind('surge-clamp'), typed, { ambientC: 25 }).elements]).amps(
      'clamp',
    );
  it('does nothing at a clamped load dump of 35 V', () => {
    // 33 V stand-off, breakdown from 36.7 V: nothing flows at 35 V (data sheet, from memory).
    expect(amps(35)).toBeLessThan(1e-4);
    expect(amps(12)).toBeLessThan(1e-6);
  });
  it('carries about its peak current at its clamping voltage, more for a part at the low end of its range', () => {
    // 53.3 V at 11.3 A for the highest breakdown of 40.6 V (data sheet, read and from memory).
    expect(amps(53.3)).toBeGreaterThan(11.3);
    expect(amps(53.3, { brMinV: 40.6, brMaxV: 40.6 })).toBeCloseTo(11.3, 1);
  });
  it('conducts like a diode when wired backwards', () => {
    expect(amps(-3)).toBeLessThan(-1);
    expect(Math.abs(amps(-3, { bidirectional: true }))).toBeLessThan(1e-4);
  });
});

describe('reverse guard on the bench', () => {
  const run = (volt: number, typed: Values, started = new Set<string>()) =>
    settleBench(
      (on) => behave(partKind('reverse-guard'), typed, { ambientC: 25, on }),
      [source('s', 'in', '0', volt), ohms('load', 'out', '0', 2.4), ohms('g', 'gnd', '0', 1e-4)],
      started,
    ).bench;
  it('passes 5 A with a tenth of a volt as a transistor', () => {
    const b = run(12.1, {});
    expect(b.volts('in') - b.volts('out')).toBeCloseTo(0.1, 2);
  });
  it('passes 5 A with its forward voltage as a diode, and blocks a reversed battery', () => {
    const diode = { type: 'schottky', dropV: 0.55 };
    const b = run(12.55, diode);
    expect(b.volts('in') - b.volts('out')).toBeCloseTo(0.55, 2);
    expect(Math.abs(run(-14, diode).amps('load'))).toBeLessThan(1e-3);
  });
  it('blocks a reversed battery as a transistor too, even one that conducted before', () => {
    for (const started of [new Set<string>(), new Set(['channel'])]) expect(Math.abs(run(-14, {}, started).amps('load'))).toBeLessThan(1e-3);
  });
  it('passes what its body diode lets through while the supply is too low for its gate', () => {
    // Standard transistors need 2 V to 4 V at the gate (data sheets, from memory): at 3 V only the diode inside conducts.
    const b = run(3, {});
    expect(b.volts('in') - b.volts('out')).toBeGreaterThan(0.5);
    expect(b.volts('in') - b.volts('out')).toBeLessThan(0.9);
  });
  it('draws about 0.2 mA through its gate clamp at 14.2 V', () => {
    // (14.2 V - 12 V) / 10 kohm, calculated.
    const b = run(14.2, {});
    expect(b.amps('gatePull')).toBeCloseTo(0.22e-3, 5);
  });
});

describe('relay on the bench', () => {
  const around = (volt: number) => [
    source('s', '86', '0', volt),
    ohms('ground', '85', '0', 0.01),
    source('c', '30', '0', 12),
    ohms('no-load', '87', '0', 12),
    ohms('nc-load', '87a', '0', 12),
  ];
  it('feeds 87 when energised and 87a at rest', () => {
    const on = settleBench(make('relay'), around(12)).bench;
    expect(on.volts('87')).toBeGreaterThan(11.9);
    expect(Math.abs(on.volts('87a'))).toBeLessThan(1e-3);
    const off = settleBench(make('relay'), around(3)).bench;
    expect(off.volts('87a')).toBeGreaterThan(11.9);
    expect(Math.abs(off.volts('87'))).toBeLessThan(1e-3);
  });
  it('stays drawn in at a voltage at which it would not pull in', () => {
    const states = (volt: number, from: Set<string>) => settleBench(make('relay', {}, { band: 'low', ambientC: 70 }), around(volt), from).on.has('coil');
    // Between 6.7 V (drop-out, hot) and 8.6 V (pull-in at 70 degrees C), calculated.
    expect(states(7.8, new Set())).toBe(false);
    expect(states(7.8, new Set(['coil']))).toBe(true);
    expect(states(6.5, new Set(['coil']))).toBe(false);
  });
  it('loses nothing through its diode the right way round, and shorts the supply the wrong way', () => {
    const coil = (volt: number) =>
      solveBench([source('s', '86', '0', volt, 0.1), ohms('ground', '85', '0', 1e-4), ...behave(partKind('relay'), { suppression: 'diode' }).elements]).amps(
        's',
      );
    expect(coil(12)).toBeCloseTo(12 / 90, 2);
    expect(coil(-12)).toBeLessThan(-20);
  });
});

describe('hold relay on the bench', () => {
  const around = (supply: number, trigger: number) => [
    source('s', '30', '0', supply, 0.05),
    source('t', '15', '0', trigger, 0.05),
    ohms('ground', '31', '0', 0.01),
    ohms('load', '87', '0', 12),
  ];
  it('holds through the walk: key on, key off, time run out', () => {
    const parked = settleBench(make('delay-off-relay'), around(12.6, 0));
    expect(parked.bench.volts('87')).toBeLessThan(1e-3);
    const on = settleBench(make('delay-off-relay'), around(12.6, 12.4), new Set(parked.on));
    expect(on.bench.volts('87')).toBeGreaterThan(12);
    // 12.4 V over 3 kohm, calculated.
    expect(on.bench.amps('trigger')).toBeCloseTo(0.00413, 4);
    const held = settleBench(make('delay-off-relay'), around(12.6, 0), new Set(on.on), 60);
    expect(held.bench.volts('87')).toBeGreaterThan(12);
    const out = settleBench(make('delay-off-relay'), around(12.6, 0), new Set(held.on));
    expect(out.bench.volts('87')).toBeLessThan(1e-3);
  });
  it('falls out at a 5.5 V trough and stays out until the trigger is back', () => {
    const low = { band: 'low', ambientC: 70 } as const;
    const on = settleBench(make('delay-off-relay', {}, low), around(12.6, 12.4));
    const trough = settleBench(make('delay-off-relay', {}, low), around(5.5, 0), new Set(on.on), 10);
    expect(trough.bench.volts('87')).toBeLessThan(1e-3);
    const back = settleBench(make('delay-off-relay', {}, low), around(12.6, 0), new Set(trough.on), 10);
    expect(back.bench.volts('87')).toBeLessThan(1e-3);
  });
});

describe('converters on the bench', () => {
  const around = (volt: number, loadOhm: number) => [source('s', 'in', '0', volt, 0.1), ohms('g', 'gnd', '0', 0.01), ohms('load', 'out', '0v', loadOhm)];
  const open = { wired: (t: string) => t !== 'en' };
  it('gives 5.12 V and takes the power that its efficiency says', () => {
    const b = settleBench(make('step-down', {}, open), around(9, 5.12 / 3)).bench;
    expect(b.volts('out') - b.volts('0v')).toBeCloseTo(5.12 - 3 * 0.01, 2);
    // 5.1 V x 3 A / 0.88 = 17.4 W, and 3 mA idle: calculated.
    const watt = (b.volts('in') - b.volts('gnd')) * b.amps('conv', 'in');
    expect(watt).toBeCloseTo((5.09 * 2.98) / 0.88 + 9 * 0.003, 0);
  });
  it('rides through 6.8 V once it runs but does not start there', () => {
    const low = { ...open, band: 'low' } as const;
    const run = settleBench(make('step-down', {}, low), around(12, 5));
    expect(run.on.has('run')).toBe(true);
    expect(settleBench(make('step-down', {}, low), around(7.0, 5), new Set(run.on)).on.has('run')).toBe(true);
    expect(settleBench(make('step-down', {}, low), around(7.0, 5)).on.has('run')).toBe(false);
  });
  it('takes its idle current off load and its standby current when off', () => {
    const idle = settleBench(make('step-down', {}, open), around(12, 1e6)).bench;
    expect(idle.amps('conv', 'in')).toBeCloseTo(0.003, 4);
    const off = settleBench(make('step-down', {}, open), around(5, 1e6)).bench;
    expect(off.amps('conv', 'in')).toBeCloseTo(0.0001, 6);
  });
  it('burns the difference as a linear regulator', () => {
    const b = solveBench([
      source('s', 'in', '0', 14.2),
      ohms('g', 'gnd', '0', 1e-4),
      ohms('load', 'out', '0', 50),
      ...behave(partKind('linear-regulator')).elements,
    ]);
    expect(b.volts('out')).toBeCloseTo(5, 1);
    // In = out + 4.2 mA (7805 data sheet, from memory).
    expect(b.amps('reg', 'in')).toBeCloseTo(0.1 + 0.0042, 3);
  });
});
