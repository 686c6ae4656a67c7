import { describe, expect, it } from 'vitest';
import { compile, type Device, type Element, type ElementsFor, type Settled, settle } from '../../src/circuit/index.ts';
import { feed, near, ohms, readings } from './solved.ts';

const contact = (id: string, a: string, b: string, isClosed: boolean): Element => ohms(id, a, b, isClosed ? 0.01 : Number.POSITIVE_INFINITY);

/** A relay coil of 90 ohm: pulls in at 8 V, drops out at 1.2 V (usual figures of a 12 V vehicle relay, from memory). */
const relay = (id: string, node: string, operateS = 0.01, releaseS = 0.005): Device => ({
  id,
  wants: (probe, on) => probe.volts(node) > (on ? 1.2 : 8),
  operateS,
  releaseS,
});

function run(
  elementsFor: ElementsFor,
  devices: readonly Device[],
  states: readonly (readonly [string, boolean])[] = [],
  longestS = Number.POSITIVE_INFINITY,
): Settled & ReturnType<typeof readings> {
  const network = compile(elementsFor(() => false));
  const settled = settle(network, elementsFor, devices, new Map(states), { longestS });
  return {
    ...settled,
    ...readings(
      network,
      elementsFor((id) => settled.states.get(id) ?? false),
      settled.solution,
    ),
  };
}

describe('relays', () => {
  const chain: ElementsFor = (on) => [
    feed(12.6, 'b', 0.02),
    contact('key', 'b', 'k1', true),
    ohms('coil1', 'k1', '0', 90),
    contact('c1', 'b', 'k2', on('r1')),
    ohms('coil2', 'k2', '0', 90),
    contact('c2', 'b', 'lamp', on('r2')),
    ohms('lamp', 'lamp', '0', 6),
  ];
  const two = [relay('r1', 'k1'), relay('r2', 'k2')];

  it('pull in one after the other', () => {
    const s = run(chain, two);
    expect(s.outcome).toBe('settled');
    expect([...s.states]).toEqual([
      ['r1', true],
      ['r2', true],
    ]);
    expect(s.i('lamp')).toBeGreaterThan(2);
  });

  it('keep their state between pull-in and drop-out volts', () => {
    const at: ElementsFor = () => [feed(5, 'k', 0.1), ohms('coil', 'k', '0', 90)];
    expect(run(at, [relay('r', 'k')]).states.get('r')).toBe(false);
    expect(run(at, [relay('r', 'k')], [['r', true]]).states.get('r')).toBe(true);
  });

  it('chatter when the own normally closed contact feeds the coil', () => {
    // The buzzer of every school book.
    const s = run((on) => [feed(12, 'b', 0.02), contact('nc', 'b', 'k', !on('r')), ohms('coil', 'k', '0', 90)], [relay('r', 'k')]);
    expect(s.outcome).toBe('chatters');
    expect(s.culprit).toBe('r');
  });

  it('name the relay that chatters, not one that only follows', () => {
    const s = run(
      (on) => [
        feed(12, 'b', 0.02),
        contact('nc', 'b', 'k', !on('buzzer')),
        ohms('coil', 'k', '0', 90),
        contact('ncTwo', 'b', 'q', on('calm')),
        ohms('coilTwo', 'q', '0', 90),
      ],
      [relay('calm', 'b'), relay('buzzer', 'k')],
    );
    expect(s.outcome).toBe('chatters');
    expect(s.culprit).toBe('buzzer');
  });

  it('hold themselves by an own contact and stay held', () => {
    const hold =
      (isPressed: boolean): ElementsFor =>
      (on) => [feed(12, 'b', 0.02), contact('button', 'b', 'k', isPressed), contact('own', 'b', 'k', on('r')), ohms('coil', 'k', '0', 90)];
    expect(run(hold(false), [relay('r', 'k')]).states.get('r')).toBe(false);
    const pressed = run(hold(true), [relay('r', 'k')]);
    expect(pressed.states.get('r')).toBe(true);
    expect(run(hold(false), [relay('r', 'k')], [...pressed.states]).states.get('r')).toBe(true);
  });
});

describe('times', () => {
  /** Two relays on the same supply, each opening the other's coil: who is faster wins. */
  const rivals: ElementsFor = (on) => [
    feed(12, 'b', 0.02),
    contact('open1', 'b', 'k1', !on('r2')),
    ohms('coil1', 'k1', '0', 90),
    contact('open2', 'b', 'k2', !on('r1')),
    ohms('coil2', 'k2', '0', 90),
  ];

  it('the device with the shortest time switches first', () => {
    expect(run(rivals, [relay('r1', 'k1', 0.02), relay('r2', 'k2', 0.01)]).states.get('r2')).toBe(true);
    expect(run(rivals, [relay('r1', 'k1', 0.01), relay('r2', 'k2', 0.02)]).states.get('r1')).toBe(true);
  });

  it('equal times go by id, whatever the order given', () => {
    expect(run(rivals, [relay('r2', 'k2'), relay('r1', 'k1')]).states.get('r1')).toBe(true);
  });

  it('equals that bear on each other go one by one, even when together both would stay', () => {
    // Once r1 is on, r2 sees 5 V: too little to pull in, enough to stay.
    const at: ElementsFor = (on) => [
      feed(12, 'b', 0.02),
      ohms('coil1', 'b', '0', 90),
      ohms('series', 'b', 'k2', 45),
      ohms('coil2', 'k2', '0', 90),
      ohms('shunt', 'k2', '0', on('r1') ? 69 : Number.POSITIVE_INFINITY),
    ];
    const pair = [relay('r1', 'b'), { ...relay('r2', 'k2'), wants: (probe, on) => probe.volts('k2') > (on ? 1.2 : 7.5) } satisfies Device];
    const s = run(at, pair);
    expect(s.v('k2')).toBeGreaterThan(4);
    expect([...s.states]).toEqual([
      ['r1', true],
      ['r2', false],
    ]);
  });

  it('a delay longer than the step still holds and is named', () => {
    // Delay-off timer: releases 60 s after its input went.
    const timer: Device = { id: 't', wants: (probe) => probe.volts('key') > 6, operateS: 0, releaseS: 60 };
    const at: ElementsFor = (on) => [feed(12, 'b', 0.02), ohms('key', 'key', '0', 1000), contact('out', 'b', 'load', on('t')), ohms('load', 'load', '0', 10)];
    const justAfter = run(at, [timer], [['t', true]], 1);
    expect(justAfter.waiting).toEqual(['t']);
    expect(justAfter.states.get('t')).toBe(true);
    expect(justAfter.outcome).toBe('settled');
    const later = run(at, [timer], [['t', true]]);
    expect(later.states.get('t')).toBe(false);
    expect(later.waiting).toEqual([]);
  });
});

/** A step-down converter with lock-out and a constant-power load behind it. */
const supplied =
  (volt: number, ohm: number, watt: number): ElementsFor =>
  (on) => [
    feed(volt, 'in', ohm),
    {
      kind: 'stepdown',
      id: 'converter',
      in: 'in',
      gnd: '0',
      out: 'out',
      on: on('uvlo'),
      setV: 5.1,
      outOhm: 0.02,
      limitA: 5,
      dropV: 0.5,
      eta: [[1, 0.88]],
      quiescentA: 0.005,
      offA: 1e-4,
    },
    { kind: 'power', id: 'board', a: 'out', b: '0', watt, minV: 3 },
  ];

/** Lock-out that opens at 6.5 V rising and closes at 6.0 V falling. */
const uvlo: Device = { id: 'uvlo', wants: (probe, on) => probe.volts('in') > (on ? 6 : 6.5), operateS: 0.01, releaseS: 1e-4 };

describe('under-voltage lock-out', () => {
  it('keeps its state inside the hysteresis', () => {
    const at = supplied(6.25, 0.01, 1);
    expect(run(at, [uvlo]).states.get('uvlo')).toBe(false);
    expect(run(at, [uvlo], [['uvlo', true]]).states.get('uvlo')).toBe(true);
    expect(run(supplied(5.9, 0.01, 1), [uvlo], [['uvlo', true]]).states.get('uvlo')).toBe(false);
    expect(run(supplied(6.6, 0.01, 1), [uvlo]).states.get('uvlo')).toBe(true);
  });

  it('starves behind a resistance that cannot carry the load', () => {
    // 4.7 ohm behind 9 V carries at most V^2 / 4R = 4.3 W (maximum power transfer); the load wants 9 W.
    const s = run(supplied(9, 4.7, 9), [uvlo]);
    expect(s.outcome).toBe('starves');
    expect(s.culprit).toBe('uvlo');
    // Reported is the state with the converter off.
    expect(s.states.get('uvlo')).toBe(false);
    near(s.v('in'), 9 - 4.7e-4, 1e-4);
    expect(s.v('out')).toBeLessThan(1e-6);
  });

  it('starves from the on state too', () => {
    expect(run(supplied(9, 4.7, 9), [uvlo], [['uvlo', true]]).outcome).toBe('starves');
  });

  it('runs when the resistance can carry it', () => {
    const s = run(supplied(9, 1, 9), [uvlo]);
    expect(s.outcome).toBe('settled');
    expect(s.states.get('uvlo')).toBe(true);
    // P / eta + V I_q = (9 - V) V.
    const watt = (s.v('out') * s.i('converter', 'out')) / 0.88;
    near((9 - s.v('in')) * s.v('in'), watt + 0.005 * s.v('in'), 1e-6);
  });

  it('waits instead of starving where its restart is slower than the step', () => {
    const slow: Device = { ...uvlo, operateS: 5 };
    const s = run(supplied(9, 4.7, 9), [slow], [['uvlo', true]], 1);
    expect(s.outcome).toBe('settled');
    expect(s.states.get('uvlo')).toBe(false);
    expect(s.waiting).toEqual(['uvlo']);
  });

  it('blames the relay, not the converter behind its chattering contact', () => {
    const at: ElementsFor = (on) => [
      feed(12, 'b', 0.02),
      contact('nc', 'b', 'k', !on('r')),
      ohms('coil', 'k', '0', 90),
      ...supplied(0, 1e6, 1)(on).filter((e) => e.kind !== 'source'),
      contact('feedThrough', 'k', 'in', true),
      ohms('bleed', 'in', '0', 100),
    ];
    const s = run(at, [{ ...uvlo, operateS: 1e-3 }, relay('r', 'k')]);
    expect(s.outcome).toBe('chatters');
    expect(s.culprit).toBe('r');
  });

  it('lets the rest settle when one of two converters starves', () => {
    const both: ElementsFor = (on) => [
      ...supplied(9, 4.7, 9)(on),
      feedOf('good', 12, 'in2'),
      {
        kind: 'stepdown',
        id: 'c2',
        in: 'in2',
        gnd: '0',
        out: 'out2',
        on: on('uvlo2'),
        setV: 5.1,
        outOhm: 0.02,
        limitA: 5,
        dropV: 0.5,
        eta: [],
        quiescentA: 0,
        offA: 0,
      },
      ohms('load2', 'out2', '0', 5),
    ];
    const uvlo2: Device = { ...uvlo, id: 'uvlo2', wants: (probe, on) => probe.volts('in2') > (on ? 6 : 6.5) };
    const s = run(both, [uvlo, uvlo2]);
    expect(s.outcome).toBe('starves');
    expect(s.culprit).toBe('uvlo');
    expect(s.states.get('uvlo2')).toBe(true);
    near(s.i('load2'), 5.1 / 5.02, 1e-5);
  });
});

const feedOf = (id: string, volt: number, a: string): Element => ({ kind: 'source', id, a, b: '0', volt, ohm: 0.02 });
