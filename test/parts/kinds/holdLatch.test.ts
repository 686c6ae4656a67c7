import { describe, expect, it } from 'vitest';
import { partKind } from '../../../src/parts/index.ts';
import type { Situation } from '../../../src/parts/types.ts';
import type { Values } from '../../../src/plan/types.ts';
import { ohms, settleBench, source } from '../bench.ts';
import { follow, jumping, type Told } from '../inTime.ts';
import { behave, element, settings } from '../situation.ts';

const kind = partKind('hold-latch');
const variant = (id: string): Values => kind.variants!.find((v) => v.id === id)!.settings;
const make =
  (typed: Values = {}, more: Partial<Situation> = {}) =>
  (on: (id: string) => boolean) =>
    behave(kind, typed, { ...more, on });
interface Inputs {
  readonly in?: number;
  readonly set?: number;
  readonly set2?: number;
  readonly hold?: number;
}
const around = (v: Inputs) => [
  source('s', 'in', '0', v.in ?? 12.6, 0.05),
  ohms('g', 'gnd', '0', 1e-3),
  ohms('load', 'out', '0', 12),
  source('key', 'set', '0', v.set ?? 0, 10),
  source('button', 'set2', '0', v.set2 ?? 0, 10),
  source('pin', 'hold', '0', v.hold ?? 0, 50),
];
const rest = (v: Inputs, on: readonly string[] = [], typed: Values = {}, longestS?: number) => settleBench(make(typed), around(v), new Set(on), longestS);

type Steps = readonly (readonly [fromS: number, volt: number])[];
function story(v: Partial<Record<keyof Inputs, Steps>>, untilS: number, typed: Values = {}, more: Partial<Situation> = {}, on: readonly string[] = []): Told {
  const inputs = Object.entries({ in: [[0, 12.6]] as Steps, ...v }).map(([id, steps]) => [id, jumping(...steps!)] as const);
  return follow(make(typed, more), {
    around: (tS) => around(Object.fromEntries(inputs.map(([id, j]) => [id, j.volt(tS)]))),
    breaks: [...new Set(inputs.flatMap(([, j]) => j.breaks))].sort((a, b) => a - b),
    untilS,
    nodes: ['out'],
    on,
  });
}

describe('hold latch at rest', () => {
  it('is open when parked and draws ten microamps', () => {
    const { bench, on } = rest({});
    expect([...on]).toEqual([]);
    expect(bench.amps('idle')).toBeCloseTo(10e-6, 7);
    expect(bench.volts('out')).toBeLessThan(0.01);
  });
  it('closes while the key line or the button is live, and drops next to nothing', () => {
    for (const v of [{ set: 12 }, { set2: 12 }]) {
      const { bench, on } = rest(v);
      expect([...on].sort()).toEqual(['kept', 'latch']);
      // 20 mohm at about 1 A, calculated.
      expect(bench.volts('in') - bench.volts('out')).toBeCloseTo(0.021, 3);
    }
  });
  it('is not closed by its hold input, nor by what is left on a dead line', () => {
    expect(rest({ hold: 3.3 }).on.has('latch')).toBe(false);
    // A lamp monitor leaves up to 6 V behind 1 kohm on a dead line (common practice, no source): not more than half of 12 V.
    expect(rest({ set: 5.9 }).on.has('latch')).toBe(false);
  });
  it('stays closed on the pin alone just after the key has gone, and opens once the pin has fallen', () => {
    expect([...rest({ hold: 3.3 }, ['kept', 'latch'], {}, 1).on].sort()).toEqual(['kept', 'latch']);
    expect([...rest({}, ['kept', 'latch']).on]).toEqual([]);
  });
  it('ends open when the pin never falls: the backstop has opened it', () => {
    expect([...rest({ hold: 3.3 }, ['kept', 'latch']).on]).toEqual([]);
    expect([...rest({ hold: 3.3 }, ['kept', 'latch'], { backstopS: 0 }).on].sort()).toEqual(['kept', 'latch']);
  });
  it('lets go without supply', () => {
    expect(rest({ in: 3, set: 12 }, ['kept', 'latch']).on.has('latch')).toBe(false);
  });
  it('wants twice the volts on its set input in a 24 V vehicle', () => {
    expect(rest({ in: 25, set: 11 }, [], variant('24v')).on.has('latch')).toBe(false);
    expect(rest({ in: 25, set: 24 }, [], variant('24v')).on.has('latch')).toBe(true);
  });
  it('does not look at inputs that nothing is joined to', () => {
    const b = behave(kind, {}, { wired: (t) => t !== 'set2' && t !== 'hold' });
    expect(b.elements.map((e) => e.id)).toEqual(['contact', 'idle', 'set']);
    const probe = {
      volts: (n: string) => {
        if (n === 'set2' || n === 'hold') throw new Error(`no node ${n}`);
        return n === 'in' ? 12 : 0;
      },
      amps: () => 0,
      on: () => true,
    };
    for (const d of b.devices ?? []) expect(() => d.wants(probe, true)).not.toThrow();
  });
});

describe('hold latch in time', () => {
  it('closes at once and opens 5 s after a short press', () => {
    const told = story(
      {
        set2: [
          [0, 0],
          [1, 12],
          [1.5, 0],
        ],
      },
      20,
    );
    expect(told.when('latch', true)).toBeCloseTo(1.005, 2);
    expect(told.when('latch', false)).toBeCloseTo(6.55, 2);
  });
  it('opens 5 s after the pin has fallen, 3.5 s at the least', () => {
    // 5 s less 30 %, calculated.
    const inputs = {
      set: [
        [0, 12],
        [10, 0],
      ] as Steps,
      hold: [
        [0, 3.3],
        [60, 0],
      ] as Steps,
    };
    expect(story(inputs, 100, {}, {}, ['kept', 'latch']).when('latch', false)).toBeCloseTo(65.05, 2);
    expect(story(inputs, 100, {}, { band: 'low' }, ['kept', 'latch']).when('latch', false)).toBeCloseTo(63.55, 2);
  });
  it('holds over a reboot in which the pin is not driven, where its time is long enough', () => {
    // Pin undriven for 30 s at a start (common practice): 5 s let go, 60 s hold.
    const reboot = {
      set: [
        [0, 12],
        [5, 0],
      ] as Steps,
      hold: [
        [0, 3.3],
        [20, 0],
        [50, 3.3],
      ] as Steps,
    };
    expect(story(reboot, 60, {}, {}, ['kept', 'latch']).when('latch', false)).toBeCloseTo(25.05, 2);
    expect(story(reboot, 60, variant('12v-slow'), {}, ['kept', 'latch']).when('latch', false)).toBeNaN();
  });
  it('opens five minutes after the last set when the computer hangs, and not before with the key on', () => {
    const hung = story(
      {
        set: [
          [0, 12],
          [100, 0],
        ],
        hold: [[0, 3.3]],
      },
      500,
      {},
      {},
      ['kept', 'latch'],
    );
    expect(hung.when('latch', false)).toBeCloseTo(400.05, 2);
    expect(hung.isOn('latch')).toBe(false);
    const without = story(
      {
        set: [
          [0, 12],
          [100, 0],
        ],
        hold: [[0, 3.3]],
      },
      2000,
      { backstopS: 0 },
      {},
      ['kept', 'latch'],
    );
    expect(without.events).toEqual([]);
    expect(story({ set: [[0, 12]], hold: [[0, 3.3]] }, 2000, {}, {}, ['kept', 'latch']).events).toEqual([]);
  });
  it('counts from the last set: a key that came back starts the five minutes anew', () => {
    const told = story(
      {
        set: [
          [0, 12],
          [10, 0],
          [200, 12],
          [210, 0],
        ],
        hold: [[0, 3.3]],
      },
      600,
      {},
      {},
      ['kept', 'latch'],
    );
    expect(told.when('latch', false)).toBeCloseTo(510.05, 2);
  });
  it('bears a dip of 15 ms and lets go in one of half a second, for good while the key line is dead', () => {
    const dip = (s: number) =>
      story(
        {
          in: [
            [0, 12.6],
            [1, 4],
            [1 + s, 12.6],
          ],
          hold: [[0, 3.3]],
        },
        5,
        {},
        {},
        ['kept', 'latch'],
      );
    expect(dip(0.015).events).toEqual([]);
    expect(dip(0.5).when('latch', false)).toBeCloseTo(1.05, 3);
    expect(dip(0.5).isOn('latch')).toBe(false);
  });
});

describe('hold latch to tracing and rules', () => {
  it('is a contact, with each input a resistor to ground that stands vehicle volts', () => {
    const facts = kind.facts(settings(kind));
    expect(facts.links?.[0]).toEqual({ a: 'in', b: 'out', type: 'contact', contact: 'no' });
    for (const a of ['set', 'set2', 'hold'])
      expect(facts.links).toContainEqual({ a, b: 'gnd', type: 'resistor', ohm: element(behave(kind), a, 'resistor').ohm });
    expect(kind.spec(settings(kind, { backstopS: 0 }))).toContain('no time limit');
  });
});
