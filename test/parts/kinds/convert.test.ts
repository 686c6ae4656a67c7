import { describe, expect, it } from 'vitest';
import { partKind } from '../../../src/parts/index.ts';
import { behave, corner, element, settings, wants } from '../situation.ts';

const variant = (name: string, id: string) => {
  const found = partKind(name).variants?.find((v) => v.id === id);
  if (!found) throw new Error(`${name} has no variant ${id}`);
  return found.settings;
};

describe('step-down', () => {
  const conv = partKind('step-down');
  const EN_OPEN = { wired: (t: string) => t !== 'en' };

  it('starts above one voltage, stops below a lower one', () => {
    const b = behave(conv, {}, { ...EN_OPEN, band: 'low' });
    expect(wants(b, 'run', false, { in: 7.4 })).toBe(false);
    expect(wants(b, 'run', false, { in: 7.6 })).toBe(true);
    expect(wants(b, 'run', true, { in: 6.8 })).toBe(true);
    expect(wants(b, 'run', true, { in: 6.6 })).toBe(false);
  });
  it('measures against its own ground, not the battery', () => {
    const b = behave(conv, {}, { ...EN_OPEN, band: 'low' });
    expect(wants(b, 'run', false, { in: 8, gnd: 0.6 })).toBe(false);
  });
  it('starts earlier in the high band than in the low one', () => {
    expect(wants(behave(conv, {}, { ...EN_OPEN, band: 'high' }), 'run', false, { in: 7.4 })).toBe(true);
  });
  it('brings its output up after its soft start and takes it away at once', () => {
    const run = (typed = {}) => behave(conv, typed, EN_OPEN).devices?.find((d) => d.id === 'run');
    // 1 ms to 10 ms (usual parts, from memory).
    expect(run()?.operateS).toBe(0.005);
    expect(run({ softStartS: 0.05 })?.operateS).toBe(0.05);
    expect(run({ softStartS: 0.05 })?.releaseS).toBeLessThan(0.001);
  });
  it('obeys its enable input once that is wired', () => {
    const b = behave(conv);
    expect(wants(b, 'run', true, { in: 12, en: 0.5 })).toBe(false);
    expect(wants(b, 'run', false, { in: 12, en: 3.3 })).toBe(true);
    // The 2596 class runs with its enable low (data sheet, read).
    const old = behave(conv, variant('step-down', 'older-3a'));
    expect(wants(old, 'run', false, { in: 12, en: 0.2 })).toBe(true);
    expect(wants(old, 'run', true, { in: 12, en: 12 })).toBe(false);
    expect(behave(conv, {}, EN_OPEN).elements.map((e) => e.id)).toEqual(['common', 'conv', 'inC']);
  });
  it('is a 5.12 V source behind its current limit, off until it runs', () => {
    const off = element(behave(conv, {}, EN_OPEN), 'conv', 'stepdown');
    expect(off).toMatchObject({ on: false, setV: 5.12, dropV: 1.5, outOhm: 0.01, offA: 0.0001, quiescentA: 0.003, tol: { setV: 0.02 } });
    expect(element(behave(conv, {}, { ...EN_OPEN, on: () => true }), 'conv', 'stepdown').on).toBe(true);
    const limit = (band: 'low' | 'high') => element(behave(conv, {}, { ...EN_OPEN, band }), 'conv', 'stepdown').limitA;
    expect([limit('low'), limit('high')]).toEqual([6.6, 8]);
  });
  it('has the efficiency of its sheet at rated and at light load', () => {
    // 2596 class: 80 % at 3 A from 12 V (data sheet, read).
    const eta = element(behave(conv, variant('step-down', 'older-3a')), 'conv', 'stepdown').eta;
    expect(eta[eta.length - 1]).toEqual([3, 0.8]);
    expect(element(behave(conv), 'conv', 'stepdown').eta[0]).toEqual([0.1, 0.8]);
    const amps = eta.map(([a]) => a);
    expect([...amps].sort((a, b) => a - b)).toEqual(amps);
  });
  it('keeps its efficiency curve in rising order down to the smallest rating', () => {
    const amps = element(behave(conv, { ratedA: 0.05 }), 'conv', 'stepdown').eta.map(([a]) => a);
    expect(new Set(amps).size).toBe(3);
    expect([...amps].sort((a, b) => a - b)).toEqual(amps);
  });
  it('is a new source with its own limit, assumed when not stated', () => {
    const of = (typed: Parameters<typeof settings>[1]) => conv.facts(settings(conv, typed)).sources?.[0];
    expect(of({})).toMatchObject({ terminal: 'out', returns: '0v', kind: 'converter', limitA: 8, limitAssumed: false });
    expect(of({ limitMaxA: 0 })).toMatchObject({ limitA: 9, limitAssumed: true });
  });
  it('wants the volts of its class at the input and draws nothing of its own accord', () => {
    const load = (id: string) => conv.facts(settings(conv, variant('step-down', id))).loads?.[0];
    expect(load('60v-6a')).toMatchObject({ plus: 'in', minus: 'gnd', minV: 6.7, maxV: 36, absMaxV: 60, peakA: 0, heatA: 0 });
    // 2596 class: 40 V, absolute maximum 45 V (data sheet, read).
    expect(load('older-3a')).toMatchObject({ maxV: 40, absMaxV: 45 });
    // Output and drop count where they are more than the stopping voltage: 12 V + 1.5 V.
    expect(conv.facts(settings(conv, { setV: 12 })).loads?.[0]?.minV).toBe(13.5);
    expect(load('75v-6a')?.absMaxV).toBeGreaterThanOrEqual(75);
  });
  it('stands reversed supply only with its guard', () => {
    const stands = (typed: Parameters<typeof settings>[1]) => conv.facts(settings(conv, typed)).polar?.[0]?.reverseV;
    // −14 V and −28 V reversed supply: ISO 16750-2, from memory.
    expect(stands({})).toBeGreaterThan(28);
    expect(stands(variant('step-down', 'older-3a'))).toBe(0);
  });
  it('joins its two grounds and says so on its face', () => {
    expect(conv.facts(settings(conv)).links).toEqual([{ a: 'gnd', b: '0v', type: 'join' }]);
    expect(conv.subtitle?.(settings(conv))).toBe('→ 5.12 V, 6 A');
    expect(conv.spec(settings(conv))).toContain('stands 60 V');
  });
});

describe('linear regulator', () => {
  const reg = partKind('linear-regulator');
  it('follows the 7805 sheet', () => {
    // 5 V +-4 %, 2 V drop, 35 V at most (data sheet, read); 4.2 mA typical, 8 mA greatest (from memory; read).
    const e = element(behave(reg), 'reg', 'linear');
    expect(e).toMatchObject({ setV: 5, dropV: 2, quiescentA: 0.0042 });
    expect(corner(e, 'setV', 'up')).toBeCloseTo(5.2, 9);
    expect(corner(e, 'quiescentA', 'up')).toBeCloseTo(0.008, 9);
    expect(reg.facts(settings(reg)).loads?.[0]).toMatchObject({ minV: 7, absMaxV: 35 });
  });
});

describe('capacitor', () => {
  const cap = partKind('capacitor');
  it('keeps half C V squared', () => {
    // 470 uF at 50 V: 0.59 J, calculated. 25 F at 5.4 V: 364.5 J, calculated.
    expect(cap.facts(settings(cap)).storeJ).toBeCloseTo(0.5875, 4);
    expect(cap.facts(settings(cap, variant('capacitor', 'store'))).storeJ).toBeCloseTo(364.5, 6);
  });
  it('is a source of its own only as a store', () => {
    expect(cap.facts(settings(cap)).sources).toBeUndefined();
    expect(cap.facts(settings(cap, variant('capacitor', 'store'))).sources?.[0]).toMatchObject({ terminal: '+', returns: '-', kind: 'store', limitA: null });
  });
  it('leaks by its type, or as typed', () => {
    // 0.01 C V: 235 uA for 470 uF at 50 V (makers' catalogues, from memory).
    expect(50 / element(behave(cap), 'c', 'capacitor').leakOhm).toBeCloseTo(235e-6, 9);
    expect(element(behave(cap, { leakA: 1e-5 }), 'c', 'capacitor').leakOhm).toBeCloseTo(5e6, 3);
    expect(element(behave(cap, variant('capacitor', 'filter')), 'c', 'capacitor').leakOhm).toBeGreaterThan(1e9);
  });
  it('minds polarity only when it has a plus side', () => {
    expect(cap.facts(settings(cap)).polar?.[0]).toMatchObject({ plus: '+', minus: '-' });
    expect(cap.facts(settings(cap, { polarised: false })).polar).toBeUndefined();
  });
  it('names ratings that must not be lowered', () => {
    expect(cap.spec(settings(cap))).toContain('470 µF');
    expect(cap.spec(settings(cap))).toContain('at least 50 V');
    expect(cap.spec(settings(cap))).toContain('105 °C');
  });
});

describe('choke', () => {
  it('is its winding resistance at rest, more when hot', () => {
    const choke = partKind('choke');
    expect(element(behave(choke), 'l', 'inductor')).toMatchObject({ henry: 22e-6, ohm: 0.05 });
    // Copper: 0.393 %/K, 1.2555 at 85 degrees C, calculated.
    expect(element(behave(choke, {}, { ambientC: 85 }), 'l', 'inductor').ohm).toBeCloseTo(0.05 * 1.25545, 5);
  });
});
