import { describe, expect, it } from 'vitest';
import { contactMinA } from '../../../src/parts/contacts.ts';
import { partKind } from '../../../src/parts/index.ts';
import { ohms, source } from '../bench.ts';
import { follow, jumping } from '../inTime.ts';
import { behave, element, settings, wants } from '../situation.ts';

const variant = (name: string, id: string) => {
  const found = partKind(name).variants?.find((v) => v.id === id);
  if (!found) throw new Error(`${name} has no variant ${id}`);
  return found.settings;
};
/** The volts between two steps of a device's wish, to 10 mV, rising from off or falling from on. */
function threshold(ask: (v: number) => boolean): number {
  for (let mv = 0; mv <= 40_000; mv += 10) if (ask(mv / 1000)) return mv / 1000;
  return Number.NaN;
}

describe('relay', () => {
  const relay = partKind('relay');
  const pullIn = (typed: Parameters<typeof behave>[1], ambientC: number, band: 'low' | 'high' = 'low') =>
    threshold((v) => wants(behave(relay, typed, { band, ambientC }), 'coil', false, { '86': v }));
  const dropOut = (typed: Parameters<typeof behave>[1], ambientC: number, band: 'low' | 'high' = 'low') =>
    threshold((v) => wants(behave(relay, typed, { band, ambientC }), 'coil', true, { '86': v }));

  it('wants more volts the hotter its copper is', () => {
    // 7.2 V at 20 degrees C (a relay maker's sheet, read) is 8.61 V in a coil of 70 degrees C, calculated with 0.393 %/K.
    expect(pullIn({}, 20)).toBeCloseTo(7.2, 1);
    expect(pullIn({}, 70)).toBeCloseTo(8.61, 1);
    // 14.8 V (24 V coil) is 18.58 V at 85 degrees C: above the 18 V floor of ISO 16750-2 code H.
    expect(pullIn(variant('relay', '24v-diode'), 85)).toBeCloseTo(18.58, 1);
  });

  it('lets go at 6.7 V when hot at the latest, at a tenth of nominal at the earliest', () => {
    // 0.4 x 12 V (common practice) in a coil of 122 degrees C, calculated.
    expect(dropOut({}, 70)).toBeCloseTo(6.72, 1);
    expect(dropOut({}, 20, 'high')).toBeCloseTo(1.2, 1);
  });

  it('keeps a gap between pulling in and letting go in every band and climate', () => {
    for (const band of ['low', 'high'] as const) {
      for (const c of [-40, 20, 105]) expect(dropOut({ dropOutMaxV: 15 }, c, band)).toBeLessThan(pullIn({ dropOutMaxV: 15 }, c, band));
    }
  });

  it('draws 133 mA at 12 V and 20 degrees C', () => {
    // 12 V / 90 ohm, calculated.
    expect(12 / element(behave(relay), 'coil', 'resistor').ohm).toBeCloseTo(0.133, 3);
    expect(element(behave(relay, {}, { ambientC: 85 }), 'coil', 'resistor').ohm).toBeCloseTo(90 * 1.2555, 2);
  });

  it('closes one contact at a time: 87a at rest, 87 energised (DIN 72552, read)', () => {
    const rest = behave(relay);
    const on = behave(relay, {}, { on: (d) => d === 'coil' });
    expect(element(rest, 'nc', 'resistor')).toMatchObject({ a: '30', b: '87a', ohm: 0.005 });
    expect(element(rest, 'no', 'resistor').ohm).toBe(Number.POSITIVE_INFINITY);
    expect(element(on, 'no', 'resistor')).toMatchObject({ a: '30', b: '87', ohm: 0.005 });
    expect(element(on, 'nc', 'resistor').ohm).toBe(Number.POSITIVE_INFINITY);
    const links = relay.facts(settings(relay)).links ?? [];
    expect(links.filter((l) => l.group !== undefined).map((l) => [l.b, l.contact, l.group])).toEqual([
      ['87', 'no', 'changeover'],
      ['87a', 'nc', 'changeover'],
    ]);
  });

  it('minds the polarity of its coil only with a diode, and releases later then', () => {
    expect(relay.facts(settings(relay)).polar).toBeUndefined();
    expect(relay.facts(settings(relay, { suppression: 'diode' })).polar?.[0]).toMatchObject({ plus: '86', minus: '85', reverseV: 0 });
    const releaseS = (suppression: string) => behave(relay, { suppression }).devices?.[0]?.releaseS;
    expect(releaseS('none')).toBe(0.005);
    expect(releaseS('diode')).toBe(0.015);
    expect(element(behave(relay, { suppression: 'diode' }), 'suppression', 'diode')).toMatchObject({ a: '85', b: '86' });
    // The tracer and the engine agree which way that diode conducts.
    expect(relay.facts(settings(relay, { suppression: 'diode' })).links).toContainEqual({ a: '85', b: '86', type: 'diode' });
    expect(relay.facts(settings(relay, { suppression: 'resistor' })).links).toContainEqual({ a: '86', b: '85', type: 'resistor', ohm: 680 });
    expect(element(behave(relay, { suppression: 'resistor' }), 'suppression', 'resistor').ohm).toBe(680);
  });
});

describe('hold relay', () => {
  const hold = partKind('delay-off-relay');
  const LIVE = { '30': 12.6, '15': 12.4 };

  it('sets its timer while the trigger is live and pulls in with it', () => {
    const b = behave(hold);
    expect(wants(b, 'hold', false, LIVE)).toBe(true);
    expect(wants(b, 'hold', false, { '30': 12.6, '15': 5 })).toBe(false);
    expect(wants(b, 'coil', false, LIVE, ['hold'])).toBe(true);
    expect(wants(b, 'coil', false, LIVE)).toBe(false);
  });

  it('holds for 90 s, and for 81 s at the least', () => {
    // 90 s less 10 %, calculated.
    const s = (band: 'low' | 'typical' | 'high') => behave(hold, {}, { band }).devices?.find((d) => d.id === 'hold')?.releaseS;
    expect(s('low')).toBeCloseTo(81, 9);
    expect(s('typical')).toBeCloseTo(90, 9);
    expect(s('high')).toBeCloseTo(99, 9);
    expect(wants(behave(hold), 'hold', true, { '30': 12.6 })).toBe(false);
  });

  it('keeps its contact closed while it holds, then opens', () => {
    const holding = behave(hold, {}, { on: () => true });
    expect(element(holding, 'contact', 'resistor')).toMatchObject({ a: '30', b: '87', ohm: 0.005 });
    expect(element(behave(hold, {}, { on: (d) => d === 'coil' }), 'contact', 'resistor').ohm).toBe(Number.POSITIVE_INFINITY);
    expect(wants(behave(hold), 'coil', true, { '30': 12.6 }, ['hold'])).toBe(true);
    expect(wants(behave(hold), 'coil', true, { '30': 12.6 })).toBe(false);
  });

  it('lets go at once when its supply sags, and waits for the trigger to come back', () => {
    // Hot coil, 0.4 x 12 V at 122 degrees C: 6.7 V, calculated; the cranking trough of level II is 5.5 V (ISO 16750-2, from memory).
    const hot = behave(hold, {}, { band: 'low', ambientC: 70 });
    expect(wants(hot, 'coil', true, { '30': 8.5, '15': 8.4 }, ['hold'])).toBe(true);
    expect(wants(hot, 'coil', true, { '30': 5.5, '15': 5.4 }, ['hold'])).toBe(false);
    expect(wants(hot, 'coil', false, { '30': 12.6, '15': 0 }, ['hold'])).toBe(false);
    expect(wants(hot, 'coil', false, { '30': 12.6, '15': 12 }, ['hold'])).toBe(true);
    const coil = hot.devices?.find((d) => d.id === 'coil');
    expect(coil?.releaseS).toBeLessThan(0.1);
  });

  it('draws its coil current energised and next to nothing when it has let go', () => {
    expect(element(behave(hold, {}, { on: () => true }), 'coil', 'current').amp).toBe(0.14);
    expect(element(behave(hold), 'coil', 'current').amp).toBe(0.0001);
    expect(12 / element(behave(hold), 'trigger', 'resistor').ohm).toBeCloseTo(0.004, 9);
  });

  it('comes for 24 V with twice the thresholds', () => {
    const b = behave(hold, variant('delay-off-relay', '24v-90s'));
    expect(wants(b, 'hold', false, { '30': 25, '15': 11 })).toBe(false);
    expect(wants(b, 'hold', false, { '30': 25, '15': 13 })).toBe(true);
    expect(hold.facts(settings(hold, variant('delay-off-relay', '24v-90s'))).loads?.[0]).toMatchObject({ nominalV: 24, maxV: 32 });
  });
});

describe('switches', () => {
  it('conduct when closed and not when open', () => {
    const master = partKind('master-switch');
    expect(element(behave(master), 'sw', 'resistor').ohm).toBe(0.01);
    expect(element(behave(master, { closed: false }), 'sw', 'resistor').ohm).toBe(Number.POSITIVE_INFINITY);
    const button = partKind('push-button');
    expect(element(behave(button), 'sw', 'resistor').ohm).toBe(Number.POSITIVE_INFINITY);
    expect(element(behave(button, {}, { pressed: true }), 'sw', 'resistor').ohm).toBe(0.05);
  });
  it('need some current to keep clean, least with gold, and their own figure wins', () => {
    // Gold 10 uA, tactile silver 1 mA, silver 10 mA: from memory; common practice, no single source.
    const minA = (name: string, typed: Parameters<typeof settings>[1]) => contactMinA(settings(partKind(name), typed));
    expect(minA('push-button', {})).toBe(10e-6);
    expect(minA('push-button', { contact: 'silver-tactile' })).toBe(1e-3);
    expect(minA('master-switch', {})).toBe(10e-3);
    expect(minA('master-switch', variant('master-switch', 'low-level'))).toBe(1e-3);
  });
});

describe('relays in a dip', () => {
  // Starting profiles of ISO 16750-2 at the coil: level I has a dip of 8 V and a trough of 8.5 V, level II 4.5 V and 5.5 V for ten seconds.
  const dip = (kind: string, typed: Parameters<typeof behave>[1], volt: number, forS: number, keyV = 12.6) => {
    const supply = jumping([0, 12.6], [1, volt], [1 + forS, 12.6]);
    const key = jumping([0, 12.6], [0.5, keyV]);
    const isRelay = kind === 'relay';
    return follow((on) => behave(partKind(kind), typed, { band: 'low', ambientC: 70, on }), {
      around: (tS) => [
        source('s', isRelay ? '86' : '30', '0', supply.volt(tS), 0.05),
        ohms('g', isRelay ? '85' : '31', '0', 1e-3),
        ...(isRelay ? [source('c', '30', '0', 12.6, 0.05)] : [source('k', '15', '0', key.volt(tS), 10)]),
        ohms('load', '87', '0', 12),
      ],
      breaks: [...new Set([...supply.breaks, ...key.breaks])].sort((a, b) => a - b),
      untilS: 20,
      nodes: ['87'],
      on: isRelay ? ['coil'] : ['coil', 'hold'],
    });
  };

  it('hold through level I, however long', () => {
    expect(dip('relay', {}, 8, 10).events).toEqual([]);
    expect(dip('delay-off-relay', {}, 8, 10).events).toEqual([]);
  });
  it('let go in level II, and pull in again when the supply is back', () => {
    for (const kind of ['relay', 'delay-off-relay']) {
      const told = dip(kind, {}, 5.5, 10);
      expect(told.events.map((e) => [e.device, e.on])).toEqual([
        ['coil', false],
        ['coil', true],
      ]);
      expect(told.volts('87', 5)).toBeLessThan(0.1);
      expect(told.volts('87', 15)).toBeGreaterThan(12);
    }
  });
  it('bear too little for 5 ms bare and for 15 ms with a diode (common practice, no source)', () => {
    expect(dip('relay', { suppression: 'none' }, 4, 0.003).events).toEqual([]);
    expect(dip('relay', { suppression: 'none' }, 4, 0.01).when('coil', false)).toBeCloseTo(1.005, 3);
    expect(dip('relay', { suppression: 'diode' }, 4, 0.01).events).toEqual([]);
    expect(dip('relay', { suppression: 'diode' }, 4, 0.05).when('coil', false)).toBeCloseTo(1.015, 3);
    expect(dip('delay-off-relay', {}, 4, 0.01).events).toEqual([]);
    expect(dip('delay-off-relay', {}, 4, 0.05).when('coil', false)).toBeCloseTo(1.015, 3);
  });
  it('a hold relay that let go while it holds stays open until its trigger comes back', () => {
    const told = dip('delay-off-relay', {}, 4, 0.05, 0);
    expect(told.when('coil', false)).toBeCloseTo(1.015, 3);
    expect(told.when('coil', true)).toBeNaN();
  });
});
