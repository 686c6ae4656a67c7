import { describe, expect, it } from 'vitest';
import type { Element } from '../../../src/circuit/types.ts';
import { computer } from '../../../src/parts/kinds/computer.ts';
import type { Situation } from '../../../src/parts/types.ts';
import type { Values } from '../../../src/plan/types.ts';
import { headerPin } from '../../../src/trade/header.ts';
import { ohms, settleBench, solveBench, source } from '../bench.ts';
import { behave, settings, situation, wants } from '../situation.ts';

/** Pins 2 and 6 wired to a supply of so many volts; further pins by name. */
function on(supplyV: number, typed: Values = {}, pins: readonly string[] = [], around: readonly Element[] = [], more: Partial<Situation> = {}) {
  const wired = (t: string): boolean => t === '2' || t === '6' || pins.includes(t);
  const make = (isOn: (id: string) => boolean) => computer.behave(settings(computer, typed), situation({ wired, on: isOn, ...more }));
  const rails = [source('supply', '2', '0', supplyV, 0.02), ohms('ground', '6', '0', 0.001)];
  return (states = new Set<string>(), longestS?: number) => settleBench(make, [...rails, ...around], states, longestS);
}

const UP = ['powered', 'booted'];

describe('computer: its states', () => {
  it('starts above 4.63 V and gives up below 4.40 V (board maker’s supply page, read)', () => {
    const b = behave(computer);
    expect(wants(b, 'powered', false, { '2': 4.62 })).toBe(false);
    expect(wants(b, 'powered', false, { '2': 4.64 })).toBe(true);
    expect(wants(b, 'powered', true, { '2': 4.41 })).toBe(true);
    expect(wants(b, 'powered', true, { '2': 4.39 })).toBe(false);
    expect(wants(b, 'powered', true, { '2': 5.1, '6': 0.8 })).toBe(false);
    expect(wants(b, 'powered', true, { '2': Number.NaN })).toBe(false);
  });

  it('draws the busy average in the middle, the peak in the low band and the idle figure in the high one (board maker’s page, read)', () => {
    const at = (load: Situation['load'], board: string) => on(5.1, { board }, [], [], { load })().bench.amps('load');
    expect(at('typical', 'high-power')).toBeCloseTo(1.2, 6);
    expect(at('heavy', 'high-power')).toBeCloseTo(1.25, 6);
    expect(at('light', 'high-power')).toBeCloseTo(0.6, 6);
    expect(at('heavy', 'mid-power')).toBeCloseTo(1.34, 6);
  });

  it('draws its start figure until it is up, which takes its time to start (board maker’s page, read)', () => {
    const b = behave(computer, { bootS: 40 });
    expect(b.devices?.find((d) => d.id === 'booted')?.operateS).toBe(40);
    const starting = on(5.1, {}, [], [], { load: 'heavy' })(new Set(), 1);
    expect([...starting.on]).toEqual(['powered']);
    expect(starting.bench.amps('load')).toBeCloseTo(0.85, 6);
    expect(wants(b, 'booted', true, { '2': 5.1 }, [])).toBe(false);
    expect(wants(b, 'booted', true, { '2': 5.1 }, ['powered', 'halted'])).toBe(false);
  });

  it('looks at the key only once it is up', () => {
    const b = behave(computer, SENSE);
    const keyOff = { '2': 5.1, [PIN]: 3.3 };
    for (const id of ['stopping', 'halted']) {
      expect(wants(b, id, false, keyOff, ['powered']), id).toBe(false);
      expect(wants(b, id, false, keyOff, UP), id).toBe(true);
    }
  });

  it('drives an output with nothing while it starts', () => {
    const out = behave(computer, { gpio5Mode: 'out' }, { wired: (t) => ['2', '6', '29'].includes(t), on: (d) => d === 'powered' }).elements;
    for (const id of ['drive5', 'sink5']) expect(out.find((e) => e.id === id)).toMatchObject({ ohm: Number.POSITIVE_INFINITY });
  });

  it('draws nothing before it is powered, and its off current once halted', () => {
    expect(Math.abs(on(4.5)().bench.amps('load'))).toBeLessThan(1e-6);
    const halted = on(5.1, { senseGpio: 16 }, ['36'], [ohms('low', '36', '0', 1e6)]);
    const { bench, on: states } = halted(new Set(['powered', 'halted']));
    expect([...states]).toContain('halted');
    // High-power class, halted with power: 0.023 A (board maker's page, read).
    expect(bench.amps('load')).toBeCloseTo(0.023, 6);
  });

  const SENSE = { senseGpio: 16, gpio16Mode: 'in-up' };
  const PIN = '36';
  it('stops once the key sense has said off for filter, programs and system together', () => {
    const b = behave(computer, { ...SENSE, filterS: 3, appS: 4, osS: 20 });
    const halted = b.devices?.find((d) => d.id === 'halted');
    expect(halted?.operateS).toBe(27);
    expect(halted?.releaseS).toBeLessThan(0.1);
    expect(b.devices?.find((d) => d.id === 'stopping')?.operateS).toBe(3);
    // Pulled low by an optocoupler: key on. Let go: pulled up, key off.
    const keyOn = on(5.1, SENSE, [PIN], [ohms('opto', PIN, '0', 100)])();
    expect([...keyOn.on]).toEqual(UP);
    const keyOff = on(5.1, SENSE, [PIN])();
    expect([...keyOff.on].sort()).toEqual(['halted', 'powered']);
  });

  it('is still up just after the key has gone off', () => {
    const justAfter = on(5.1, SENSE, [PIN])(new Set(UP), 1);
    expect([...justAfter.on]).toEqual(UP);
  });

  it('reads the other polarity when told so', () => {
    const typed = { senseGpio: 16, gpio16Mode: 'in-down', senseActive: 'high-when-on' };
    expect([...on(5.1, typed, [PIN])().on]).toContain('halted');
    expect([...on(5.1, typed, [PIN], [source('high', PIN, '0', 3.3, 1000)])().on]).toEqual(UP);
  });

  it('never stops for a key sense that is not chosen or not joined to anything', () => {
    expect([...on(5.1, {}, [PIN])().on]).toEqual(UP);
    expect([...on(5.1, SENSE)().on]).toEqual(UP);
    expect([...on(5.1, { ...SENSE, senseGpio: 15.8 }, [PIN])().on].sort()).toEqual(['halted', 'powered']);
  });

  it('keeps its last opinion between the two logic thresholds', () => {
    const b = behave(computer, SENSE);
    // 0.8 V and 2.0 V for the newer generation (board maker's pin tables, read).
    const between = { '2': 5.1, [PIN]: 1.4 };
    expect(wants(b, 'stopping', false, between, ['powered', 'booted'])).toBe(false);
    expect(wants(b, 'stopping', false, { ...between, [PIN]: 2.1 }, ['powered', 'booted'])).toBe(true);
    // At the end of its stop it looks once more: only a level that is clearly "on" makes it start again.
    const end = ['powered', 'booted', 'stopping', 'halted'];
    expect(wants(b, 'stopping', true, between, end)).toBe(false);
    expect(wants(b, 'stopping', true, { ...between, [PIN]: 0.7 }, end)).toBe(true);
  });

  it('once stopped, stays stopped when the key comes back, and starts again only after its power has been away', () => {
    const stopped = new Set(['powered', 'halted']);
    const back = on(5.1, SENSE, [PIN], [ohms('opto', PIN, '0', 100)])(stopped);
    expect([...back.on].sort()).toEqual(['halted', 'powered']);
    const away = on(0, SENSE, [PIN])(new Set(back.on));
    expect([...away.on]).toEqual([]);
    const again = on(5.1, SENSE, [PIN], [ohms('opto', PIN, '0', 100)])(new Set(away.on));
    expect([...again.on]).toEqual(UP);
  });

  it('is woken by GPIO 3 pulled low when set so, but not with a power-off pin in use (board maker’s notes, read)', () => {
    const low = { '2': 5.1, '5': 0.1, [PIN]: 0.1 };
    const stays = (typed: Values) => wants(behave(computer, { ...SENSE, ...typed }), 'halted', true, low, ['powered', 'halted']);
    expect(stays({ wakes: 'gpio3' })).toBe(false);
    expect(stays({ wakes: 'power' })).toBe(true);
    expect(stays({ wakes: 'gpio3', powerOffPin: 26 })).toBe(true);
    expect(wants(behave(computer, { ...SENSE, wakes: 'gpio3' }), 'halted', true, { ...low, '5': 3.3 }, ['powered', 'halted'])).toBe(true);
  });

  it.each([true, false])('carries a stop through when the key comes back; at its end it starts again only where it restarts on key (%s)', (restartsOnKey) => {
    const keyBack = { '2': 5.1, [PIN]: 0.1 };
    const b = behave(computer, { ...SENSE, restartsOnKey });
    const during = ['powered', 'booted', 'stopping'];
    expect([wants(b, 'stopping', true, keyBack, during), wants(b, 'halted', false, keyBack, during)]).toEqual([true, true]);
    expect(wants(b, 'halted', true, keyBack, [...during, 'halted'])).toBe(!restartsOnKey);
    // Once it has stopped for good the key alone does nothing.
    expect(wants(b, 'halted', true, keyBack, ['powered', 'halted'])).toBe(true);
  });
});

describe('computer: its 3.3 V and its pins', () => {
  it('gives 3.3 V within 2 % up to 0.1 A while powered', () => {
    const loaded = (ohm: number) => on(5.1, {}, ['17'], [ohms('load3', '17', '0', ohm)])().bench.volts('17');
    expect(loaded(1e6)).toBeCloseTo(3.3, 2);
    expect(loaded(33)).toBeGreaterThan(3.3 * 0.98);
  });

  it('has no 3.3 V when off, but a pull-up to a foreign voltage lifts it through the pin’s clamp', () => {
    const around = [source('far', 'far', '0', 5), ohms('foreign', 'far', '29', 1000)];
    const off = on(0, {}, ['29'], around)().bench;
    expect(off.volts('1')).toBeGreaterThan(0.2);
    // 5 V through 1 kohm and a 0.6 V diode into the 100 ohm inner load: (5 - 0.6) / 1.1 kohm = 4 mA, 0.4 V.
    expect(off.volts('1')).toBeCloseTo(0.4, 1);
    expect(on(0, {}, ['29'])().bench.volts('1')).toBeLessThan(0.001);
  });

  it('does not sink what comes in through a clamp while on: the rail rises', () => {
    const around = [source('far', 'far', '0', 12), ohms('foreign', 'far', '29', 47)];
    const b = on(5.1, {}, ['29'], around)().bench;
    expect(b.volts('1')).toBeGreaterThan(3.6);
    expect(Math.abs(b.amps('rail3Diode'))).toBeLessThan(1e-5);
  });

  it.each([
    ['in-up', 3.2, 3.31],
    ['in-down', -0.01, 0.05],
  ])('pulls a pin set to %s', (mode, least, most) => {
    const v = on(5.1, { gpio5Mode: mode }, ['29'], [ohms('meter', '29', '0', 10e6)])().bench.volts('29');
    expect(v).toBeGreaterThan(least);
    expect(v).toBeLessThan(most);
  });

  it('pulls with 33 to 73 kohm (board maker’s pin tables, read): 1 Mohm to ground leaves over 3 V, 10 kohm under 0.8 V', () => {
    const low = on(5.1, { gpio5Mode: 'in-up' }, ['29'], [ohms('r', '29', '0', 10e3)])().bench;
    expect(low.volts('29')).toBeLessThan(0.8);
    expect(low.amps('pull5')).not.toBe(0);
    const pull = computer.behave(settings(computer, { gpio5Mode: 'in-up' }), situation({ on: (d) => d === 'powered' })).elements.find((e) => e.id === 'pull5');
    if (pull?.kind !== 'resistor') throw new Error('no pull');
    const [down, up] = pull.tol!.ohm as readonly [number, number];
    expect(pull.ohm * down).toBeCloseTo(33e3, 0);
    expect(pull.ohm * up).toBeCloseTo(73e3, 0);
  });

  it('drives an output high while up, low once stopped, and lets go without power', () => {
    const typed = { gpio5Mode: 'out' };
    const load = [ohms('drawn', '29', '0', 1000)];
    const up = on(5.1, typed, ['29'], load)().bench;
    // Newer pins keep at least 2.6 V at 4 mA (board maker's pin tables, read); 3 mA here.
    expect(up.volts('29')).toBeGreaterThan(2.6);
    const pulledUp = [source('far', 'far', '0', 3.3), ohms('r', 'far', '29', 1000)];
    const stopped = solveBench([
      source('supply', '2', '0', 5.1),
      ohms('ground', '6', '0', 0.001),
      ...pulledUp,
      ...behave(computer, typed, { wired: (t) => ['2', '6', '29'].includes(t), on: (d) => d === 'powered' || d === 'halted' }).elements,
    ]);
    expect(stopped.volts('29')).toBeLessThan(0.4);
    const off = on(0, typed, ['29'], [ohms('drawn', '29', '0', 1000)])().bench;
    expect(Math.abs(off.amps('drive5'))).toBe(0);
    expect(Math.abs(off.amps('sink5'))).toBe(0);
  });

  it('says “stopped” on its power-off pin: low while up, high once halted', () => {
    const at = (states: readonly string[]) =>
      solveBench([
        source('supply', '2', '0', 5.1),
        ohms('ground', '6', '0', 0.001),
        ohms('drawn', '37', '0', 10e3),
        ...behave(computer, { powerOffPin: 26 }, { wired: (t) => ['2', '6', '37'].includes(t), on: (d) => states.includes(d) }).elements,
      ]).volts('37');
    expect(at(['powered'])).toBeLessThan(0.1);
    expect(at(['powered', 'halted'])).toBeGreaterThan(3.2);
    expect(at([])).toBeLessThan(0.1);
  });

  it('holds GPIO 2 and 3 up with 1.8 kohm of its own (from memory)', () => {
    const b = on(5.1, {}, ['3'], [ohms('r', '3', '0', 1800)])().bench;
    expect(b.volts('3')).toBeCloseTo(1.65, 1);
  });

  it('idles a sending serial pin high and leaves the receiving one alone', () => {
    const typed = { gpio14Mode: 'serial', gpio15Mode: 'serial' };
    const b = on(5.1, typed, ['8', '10'], [ohms('t', '8', '0', 10e3), ohms('r', '10', '0', 10e3)])().bench;
    expect(b.volts('8')).toBeGreaterThan(3);
    expect(b.volts('10')).toBeLessThan(0.01);
  });

  it('keeps a pin within a diode of its rails', () => {
    const b = on(5.1, {}, ['29'], [source('neg', 'neg', '0', -5), ohms('r', 'neg', '29', 1000)])().bench;
    expect(b.volts('29')).toBeGreaterThan(-0.8);
  });
});

describe('computer: USB and joints', () => {
  it('feeds its USB ports from the 5 V node through 0.1 ohm only while powered', () => {
    const device = [ohms('device', 'usb1', 'usb1~0', 10)];
    const b = on(5.1, {}, ['usb1'], device)().bench;
    expect(b.volts('usb1') - b.volts('usb1~0')).toBeCloseTo(5.05, 1);
    expect((b.volts('2') - b.volts('usb1')) / b.amps('device')).toBeCloseTo(0.1, 2);
    const off = on(0, {}, ['usb1'], [source('hub', 'usb1', 'usb1~0', 5)])().bench;
    expect(off.volts('2')).toBeLessThan(0.1);
  });

  it('is kept half alive by a powered hub when its ports let current back', () => {
    const hub = [source('hub', 'usb1', 'usb1~0', 5)];
    const make = (typed: Values) =>
      solveBench([ohms('ground', '6', '0', 0.001), ...hub, ...behave(computer, typed, { wired: (t) => t === '6' || t === 'usb1' }).elements]).volts('2');
    expect(make({ usbBackfeed: true })).toBeGreaterThan(4.5);
    expect(make({ usbBackfeed: false })).toBeLessThan(1);
  });

  it('joins pins 2 and 4, the grounds, and the socket when fed there', () => {
    const b = on(5.1, {}, ['4', '39'], [ohms('far', '4', '39', 5)])().bench;
    expect(b.volts('4') - b.volts('39')).toBeCloseTo(b.volts('2') - b.volts('6'), 3);
    const terminals = (feed: string) => computer.terminals(settings(computer, { feed })).map((t) => t.id);
    expect(terminals('header')).not.toContain('vbus');
    expect(terminals('socket')).toEqual(expect.arrayContaining(['vbus', '0v']));
    const s = settings(computer, { feed: 'socket' });
    const elements = computer.behave(s, situation({ on: (d) => UP.includes(d), wired: (t) => t === 'vbus' || t === '0v' })).elements;
    const fed = solveBench([source('plug', 'vbus', '0', 5.1, 0.01), ohms('ground', '0v', '0', 0.001), ...elements]);
    expect(fed.amps('load')).toBeCloseTo(1.2, 6);
  });

  it('counts as one load of its class and as a source for each thing it feeds', () => {
    const facts = computer.facts(settings(computer));
    // 5 V +/- 5 % at the header (board maker's page, read).
    expect(facts.loads).toEqual([expect.objectContaining({ plus: '2', minus: '6', minV: 4.75, maxV: 5.25, peakA: 1.25, heatA: 1.2 })]);
    const limit = (terminal: string) => facts.sources?.find((x) => x.terminal === terminal)?.limitA;
    // USB ports together 1.2 A; newer pins 8 mA, older 16 mA (board maker's pages, read).
    expect(limit('usb3')).toBe(1.2);
    expect(limit('29')).toBe(0.008);
    expect(computer.facts(settings(computer, { board: 'mid-power' })).sources?.find((x) => x.terminal === '29')?.limitA).toBe(0.016);
    expect(facts.sources?.filter((x) => x.kind === 'pin').every((x) => headerPin(Number(x.terminal)).gpio !== null)).toBe(true);
  });
});
