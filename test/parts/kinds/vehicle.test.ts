import { describe, expect, it } from 'vitest';
import { partKind } from '../../../src/parts/index.ts';
import type { VehicleState } from '../../../src/plan/types.ts';
import { behave, corner, element, settings } from '../situation.ts';

describe('battery', () => {
  const battery = partKind('battery');
  it('is the supply of the state behind the resistance of the band', () => {
    // 30 mohm cold and aged, 5 mohm fresh: starter battery figures, from memory.
    expect(element(behave(battery, {}, { band: 'low', supplyV: 10.5 }), 'emf', 'source')).toMatchObject({ a: '@battery', b: '@0', volt: 10.5, ohm: 0.03 });
    expect(element(behave(battery, {}, { band: 'high', supplyV: 16 }), 'emf', 'source')).toMatchObject({ volt: 16, ohm: 0.005 });
    expect(element(behave(battery, {}, { band: 'typical' }), 'emf', 'source').ohm).toBeCloseTo(0.0175, 12);
  });
  it('joins its posts to the battery nodes', () => {
    expect(partKind('battery').facts(settings(battery)).links).toEqual([
      { a: '+', b: '@battery', type: 'join' },
      { a: '-', b: '@0', type: 'join' },
    ]);
  });
});

describe('feeds', () => {
  // Which line is live when: DIN 72552 lists (read) and a workshop chart of an ignition switch (read): 75 falls while cranking.
  const live: readonly (readonly [string, readonly VehicleState[], readonly VehicleState[]])[] = [
    ['feed-30', ['OFF_ASLEEP', 'OFF_AWAKE', 'ACC', 'RUN_STOPPED', 'START', 'RUN_CHARGING', 'RETAIN'], []],
    ['feed-15', ['RUN_STOPPED', 'START', 'RUN_CHARGING'], ['OFF_ASLEEP', 'ACC', 'RETAIN', 'RETAIN_DOOR']],
    ['feed-75', ['ACC', 'RUN_STOPPED', 'RUN_CHARGING'], ['OFF_ASLEEP', 'START', 'RETAIN_DOOR']],
    ['feed-75r', ['ACC', 'RUN_CHARGING', 'RETAIN'], ['OFF_ASLEEP', 'RETAIN_DOOR']],
  ];
  it.each(live)('%s conducts only while its line is live', (name, on, off) => {
    for (const state of on) expect(element(behave(partKind(name), {}, { state }), 'feed', 'resistor').ohm, state).toBeLessThan(1);
    for (const state of off) expect(element(behave(partKind(name), {}, { state }), 'feed', 'resistor').ohm, state).toBe(Number.POSITIVE_INFINITY);
  });

  it('hangs on the battery until its vehicle side is wired', () => {
    const feed = partKind('feed-30');
    expect(element(behave(feed, {}, { wired: () => false }), 'feed', 'resistor').a).toBe('@battery');
    expect(element(behave(feed, {}, { wired: (t) => t === 'in' }), 'feed', 'resistor').a).toBe('in');
  });

  it('has the greatest source resistance in the low band and the least in the high one', () => {
    const feed = partKind('feed-30');
    const ohm = (band: 'low' | 'typical' | 'high') => element(behave(feed, {}, { band }), 'feed', 'resistor').ohm;
    // 50 to 100 mohm at a radio plug: common practice, no source.
    expect([ohm('low'), ohm('high')]).toEqual([0.1, 0.05]);
    expect(ohm('typical')).toBeCloseTo(0.075, 12);
    const typical = element(behave(feed), 'feed', 'resistor');
    expect(corner(typical, 'ohm', 'down')).toBeCloseTo(0.05, 9);
    expect(corner(typical, 'ohm', 'up')).toBeCloseTo(0.1, 9);
  });

  it('keeps least and greatest in order when they are typed the wrong way round', () => {
    const source = partKind('feed-30').facts(settings(partKind('feed-30'), { sourceMinOhm: 0.4, sourceMaxOhm: 0.2 })).sources?.[0];
    expect(source).toMatchObject({ minOhm: 0.2, maxOhm: 0.4 });
  });

  it('tells the donor fuse and whether anybody has read it', () => {
    const feed = partKind('feed-15');
    expect(feed.facts(settings(feed)).sources?.[0]).toMatchObject({ kind: 'feed', line: '15', limitA: null, donorFuseRead: false });
    expect(feed.facts(settings(feed, { donorFuseA: 7.5, donorFuseRead: true })).sources?.[0]).toMatchObject({ donorFuseA: 7.5, donorFuseRead: true });
    expect(feed.spec(settings(feed))).toContain('not read yet');
  });

  it('prints its terminal number in a filled disc', () => {
    for (const [name, printed] of [
      ['feed-30', '30'],
      ['feed-15', '15'],
      ['feed-58', '58'],
      ['feed-75r', '75'],
    ] as const) {
      const kind = partKind(name);
      const texts = kind.symbol(settings(kind), kind.terminals(settings(kind))).primitives.flatMap((p) => (p.t === 'text' ? [p.text] : []));
      expect(texts[0]).toBe(printed);
    }
  });
});

describe('chassis ground', () => {
  const ground = partKind('chassis-ground');
  it('is a good joint on a stud and a bad one on paint or behind a hinge', () => {
    // 2 mohm and 80 mohm: common practice, no source. 0.4 ohm through a hinge at 2 A is 0.8 V: common practice, no source.
    const ohm = (place: string) => element(behave(ground, { place }), 'bond', 'resistor').ohm;
    expect(ohm('dash-stud')).toBe(0.002);
    expect(ohm('painted-bolt')).toBe(0.08);
    expect(2 * ohm('hinge')).toBeCloseTo(0.8, 9);
  });
  it('lets a measured figure win', () => {
    expect(element(behave(ground, { place: 'painted-bolt', measuredOhm: 0.003 }), 'bond', 'resistor').ohm).toBe(0.003);
  });
});

describe('radio sound input', () => {
  it('joins its screen to the body, which is how ground loops close', () => {
    const b = behave(partKind('radio-aux'));
    expect(element(b, 'screen', 'resistor')).toMatchObject({ a: 'aux~0', b: '@chassis' });
    expect(element(b, 'input', 'resistor').ohm).toBe(10_000);
  });
});
