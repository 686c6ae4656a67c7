import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import type { Results } from '../../src/advise/types.ts';
import type { Plan, Wire } from '../../src/plan/types.ts';
import { planningLimit } from '../../src/trade/ampacity.ts';
import { AREAS_MM2 } from '../../src/trade/conductors.ts';
import { demoPlan, largePlan } from '../bench/largePlan.ts';
import { type Bench, bench, fused, ground } from '../rules/plans.ts';
import { withStore } from '../rules/plansSense.ts';

const wireOf = (r: Results, b: Bench, name: string): Wire => r.filled.wires[b.wireId(name)]!;
const settingOf = (r: Results, b: Bench, name: string, key: string): unknown => r.filled.parts[b.id(name)]!.settings[key];
const reasonOf = (r: Results, b: Bench, name: string, key: string): string | undefined => r.reasons[`part:${b.id(name)}.${key}`];

/** Values of a filled plan that the drawn plan had not, as keys of reasons. */
function filledIn(plan: Plan, filled: Plan): string[] {
  const keys: string[] = [];
  for (const w of Object.values(filled.wires)) {
    const drawn = plan.wires[w.id] as unknown as Record<string, unknown>;
    for (const key of Object.keys(w)) if (drawn[key] === undefined) keys.push(`wire:${w.id}.${key}`);
  }
  for (const p of Object.values(filled.parts))
    for (const key of Object.keys(p.settings)) if (plan.parts[p.id]!.settings[key] === undefined) keys.push(`part:${p.id}.${key}`);
  return keys;
}

describe('automatic values', () => {
  it.each([
    ['the demo', demoPlan],
    ['the bench', bench().plan],
    ['a 24 V bench', bench('24', { systemV: 24 }).plan],
  ])('have a reason each, and none without a value: %s', (_, plan) => {
    const { filled, reasons } = computeResults(plan);
    const keys = filledIn(plan, filled);
    expect(keys.length).toBeGreaterThan(50);
    for (const key of keys) expect(reasons[key], key).toMatch(/\S/);
    expect(Object.keys(reasons).filter((key) => !keys.includes(key))).toEqual([]);
    for (const reason of Object.values(reasons)) expect(reason).not.toMatch(/undefined|NaN|\bsafe/);
  });

  it('leave what is typed alone, down to the last', () => {
    const all = computeResults(demoPlan).filled;
    const again = computeResults(all);
    expect(again.filled).toEqual(all);
    expect(again.reasons).toEqual({});
  });

  it('leave the vehicle’s own wires as they are', () => {
    const { filled } = computeResults(demoPlan);
    for (const w of Object.values(demoPlan.wires).filter((x) => x.owner === 'vehicle')) {
      expect(filled.wires[w.id]).toMatchObject({ from: w.from, to: w.to });
      expect(filled.wires[w.id]).not.toHaveProperty('number');
      expect(filled.wires[w.id]).not.toHaveProperty('colour');
    }
  });
});

describe('numbers', () => {
  it('follow the order of making and pass over those that are typed', () => {
    const b = fused('numbers')
      .part('a', 'splice', 'dash')
      .wire('fuse.2', 'a.s', {}, 'one')
      .wire('a.s', 'ground.31', { number: 2 }, 'two')
      .wire('a.s', 'fuse.2', {}, 'three');
    const r = computeResults(b.plan);
    expect(wireOf(r, b, 'tap').number).toBe(1);
    expect(wireOf(r, b, 'one').number).toBe(3);
    expect(wireOf(r, b, 'three').number).toBe(4);
    const numbers = Object.values(r.filled.wires).flatMap((w) => w.number ?? []);
    expect(new Set(numbers).size).toBe(numbers.length);
  });
});

describe('colours', () => {
  it.each([
    ['the demo', demoPlan],
    ['a large plan', largePlan(60)],
    ['a 24 V bench', bench('24', { systemV: 24 }).plan],
  ])('never mean two voltages: %s', (_, plan) => {
    const { filled, analysis } = computeResults(plan);
    const meaning = new Map<string, Set<number>>();
    for (const w of Object.values(filled.wires)) {
      const v = analysis.wires[w.id]?.nominalV;
      if (w.owner === 'vehicle' || v === null || v === undefined || w.colour === undefined) continue;
      const look = `${w.colour}/${w.stripe ?? ''}`;
      meaning.set(look, (meaning.get(look) ?? new Set()).add(v));
    }
    expect([...meaning].filter(([, volts]) => volts.size > 1)).toEqual([]);
    expect(meaning.size).toBeGreaterThan(3);
  });

  it('keep supplies of different making apart, and signals off their stripes', () => {
    const b = fused('made')
      .part('nine', 'step-down', 'seat', { setV: 9 })
      .part('seven', 'step-down', 'seat', { setV: 7 })
      .part('end9', 'splice', 'desk')
      .part('end7', 'splice', 'desk')
      .wire('fuse.2', 'nine.in')
      .wire('fuse.2', 'seven.in')
      .wire('nine.out', 'end9.s', {}, 'w9')
      .wire('seven.out', 'end7.s', {}, 'w7');
    for (let i = 0; i < 30; i++) b.part(`b${i}`, 'push-button', 'seat').part(`c${i}`, 'push-button', 'seat').wire(`b${i}.1`, `c${i}.1`, {}, `s${i}`);
    const r = computeResults(b.plan);
    const look = (name: string): string => `${wireOf(r, b, name).colour}/${wireOf(r, b, name).stripe ?? ''}`;
    expect(look('w9')).not.toBe(look('w7'));
    const signals = Array.from({ length: 30 }, (_, i) => look(`s${i}`));
    expect(signals).not.toContain(look('w9'));
    expect(signals).not.toContain(look('w7'));
    for (const forbidden of ['BK', 'BN', 'RD', 'VT', 'PK', 'YE', 'OG']) expect(signals.some((s) => s.startsWith(forbidden))).toBe(false);
    // Twenty of them are all different.
    expect(new Set(signals.slice(0, 20)).size).toBe(20);
  });

  it('are black for ground, red for supply, violet for 5 V, pink for 3.3 V, the same all over a net', () => {
    const b = bench();
    const r = computeResults(b.plan);
    expect(wireOf(r, b, 'return').colour).toBe('BK');
    expect(wireOf(r, b, 'feed').colour).toBe('RD');
    expect(wireOf(r, b, 'five').colour).toBe('VT');
    expect(wireOf(r, b, 'pull-').colour).toBe('PK');
    expect(wireOf(r, b, 'pin')).toMatchObject({ colour: wireOf(r, b, 'pull+').colour });
    // Switched supplies have a stripe, the permanent one has none.
    expect(wireOf(r, b, 'trigger').stripe).toBe('GN');
    expect(wireOf(r, b, 'feed').stripe).toBeUndefined();
  });

  it('follow the one that is typed on a signal’s net, and leave that look to it', () => {
    const b = bench().wireSet('pin', { colour: 'BU' });
    const r = computeResults(b.plan);
    expect(wireOf(r, b, 'pull+')).toMatchObject({ colour: 'BU' });
    const others = Object.values(r.filled.wires).filter((w) => w.colour === 'BU' && w.stripe === undefined);
    expect(others.map((w) => w.id).sort()).toEqual([b.wireId('pin'), b.wireId('pull+')].sort());
  });
});

describe('lengths', () => {
  it('come from the runs, with 0.3 m in each end zone, and say which way', () => {
    const b = fused('length')
      .part('far', 'splice', 'desk')
      .part('near', 'splice', 'dash')
      .wire('fuse.2', 'far.s', {}, 'far')
      .wire('fuse.2', 'near.s', {}, 'near');
    const r = computeResults(b.plan);
    // Dash to seat 2.2 m, seat to desk 2.4 m, 0.6 m at the ends.
    expect(wireOf(r, b, 'far').lengthM).toBeCloseTo(5.2, 9);
    expect(r.reasons[`wire:${b.wireId('far')}.lengthM`]).toContain('Under the seat');
    expect(wireOf(r, b, 'near').lengthM).toBeCloseTo(0.3, 9);
  });

  it('stay open where no run leads, and the wire is computed all the same', () => {
    const b = fused('no run').part('far', 'usb-device', 'desk').wire('fuse.2', 'far.usb', {}, 'far');
    const r = computeResults({ ...b.plan, runs: {} });
    expect(wireOf(r, b, 'far').lengthM).toBeUndefined();
    expect(r.analysis.wires[b.wireId('far')]!.lengthM).toBeGreaterThan(0);
    expect(r.report.todo[b.wireId('far')]).toEqual([expect.stringContaining('length not known')]);
  });
});

describe('fuses', () => {
  const loaded = (ohm: number): Bench =>
    fused('fuse').part('load', 'resistor', 'dash', { ohm, ratedW: 50 }).wire('fuse.2', 'load.1').wire('load.2', 'ground.31');

  it('are the smallest that hold the design current three quarters loaded in their place', () => {
    // 9 V over 4 ohm: 2.2 A. A 5 A fuse at 60 degrees C may hold 0.75 x 5 x (1 - 0.0025 x 35) = 3.42 A, a 3 A one 2.05 A.
    const b = loaded(4);
    const r = computeResults(b.plan);
    expect(settingOf(r, b, 'fuse', 'ratingA')).toBe(4);
    expect(reasonOf(r, b, 'fuse', 'ratingA')).toContain('75 %');
    const fuse = r.analysis.fuses[b.id('fuse')]!;
    expect(fuse.heatA).toBeLessThanOrEqual(fuse.allowedA);
    expect(fuse.heatA).toBeGreaterThan(0.75 * 3 * (1 - 0.0025 * 35));
    expect(settingOf(computeResults(loaded(400).plan), loaded(400), 'fuse', 'ratingA')).toBe(1);
  });
});

describe('conductor sizes', () => {
  it.each([
    ['the demo', demoPlan],
    ['a large plan', largePlan(300)],
    ['a 24 V bench', bench('24', { systemV: 24 }).plan],
  ])('are stocked, carry their current and what protects them, also in the bundle they make: %s', (_, plan) => {
    const { filled, analysis } = computeResults(plan);
    let chosen = 0;
    for (const w of Object.values(filled.wires)) {
      if (plan.wires[w.id]!.areaMm2 !== undefined || w.owner === 'vehicle') continue;
      chosen++;
      const report = analysis.wires[w.id]!;
      expect(AREAS_MM2).toContain(w.areaMm2);
      expect(report.limitA, `${w.id} carries its current`).toBeGreaterThanOrEqual(report.heatA);
      const greatest = Math.max(report.protection.from.maxA, report.protection.to.maxA);
      if (Number.isFinite(greatest)) expect(report.limitA, `${w.id} carries what protects it`).toBeGreaterThanOrEqual(greatest);
    }
    expect(chosen).toBeGreaterThan(15);
  });

  it('keep the feed’s drop, go and return, within 3 % at the design corner', () => {
    const b = fused('drop')
      .part('load', 'camera', 'desk', { typA: 1.5, nightA: 2 })
      .wire('fuse.2', 'load.+', { lengthM: 6 }, 'out')
      .wire('load.-', 'ground.31', { lengthM: 6 }, 'back');
    const r = computeResults(b.plan);
    const { design, index } = r.analysis;
    const at = (key: string): number => design.terminalV[index.terminals.indexOf(key)]!;
    const out = at(`${b.id('fuse')}.2`) - at(`${b.id('load')}.+`);
    const back = at(`${b.id('load')}.-`) - at(`${b.id('ground')}.31`);
    expect(out + back).toBeLessThan(0.03 * 12);
    // The next smaller size would not do it.
    const area = wireOf(r, b, 'out').areaMm2!;
    const smaller = AREAS_MM2[AREAS_MM2.indexOf(area) - 1]!;
    expect(((out + back) * area) / smaller).toBeGreaterThan(0.03 * 12 * 0.85);
    expect(r.reasons[`wire:${b.wireId('out')}.areaMm2`]).toContain('drop');
  });

  it('ahead of the first fuse go by that fuse', () => {
    const b = ground('ahead')
      .part('feed', 'feed-30', 'dash', {}, { owner: 'vehicle' })
      .part('fuse', 'blade-fuse', 'dash', { ratingA: 20 })
      .wire('feed.out', 'fuse.1', { lengthM: 0.1 }, 'tap');
    const r = computeResults(b.plan);
    expect(planningLimit(wireOf(r, b, 'tap').areaMm2!, 105, 70, 1).limitA).toBeGreaterThanOrEqual(20);
  });

  it('take the hotter wire where 105 °C would leave too little', () => {
    const b = ground('bay').part('end', 'splice', 'bay').part('fuse', 'blade-fuse', 'bay').wire('battery.+', 'fuse.1').wire('fuse.2', 'end.s', {}, 'hot');
    const r = computeResults(b.plan);
    expect(wireOf(r, b, 'hot').insulationC).toBe(125);
    expect(r.reasons[`wire:${b.wireId('hot')}.insulationC`]).toContain('too hot');
  });
});

describe('resistors', () => {
  it('suit what they stand beside, in 12 V and in 24 V vehicles', () => {
    const b12 = bench();
    const r12 = computeResults(b12.plan);
    // Sensing LED (practice): 2.2 kohm gives 3 mA at 9 V and burns 0.11 W at 16 V; 24 V: 4.7 kohm, half a watt.
    expect(settingOf(r12, b12, 'sense', 'ohm')).toBe(2200);
    expect(settingOf(r12, b12, 'pull', 'ohm')).toBe(10_000);
    const b24 = bench('24', { systemV: 24 });
    const r24 = computeResults(b24.plan);
    expect(settingOf(r24, b24, 'sense', 'ohm')).toBe(4700);
    expect(settingOf(r24, b24, 'sense', 'ratedW')).toBe(0.5);
    expect(reasonOf(r24, b24, 'sense', 'ratedW')).toContain('24 V');
    const typed = bench().set('sense', { ratedW: 1 });
    expect(settingOf(computeResults(typed.plan), typed, 'sense', 'ratedW')).toBe(1);
  });

  it('in line with an indicator go by its rail', () => {
    const b = fused('lamp').part('r', 'resistor', 'dash').part('lamp', 'led', 'dash').wire('fuse.2', 'r.1').wire('r.2', 'lamp.A').wire('lamp.K', 'ground.31');
    const r = computeResults(b.plan);
    expect(settingOf(r, b, 'r', 'ohm')).toBe(2200);
    const amp = r.analysis.readings.find((x) => x.state === 'RUN_CHARGING' && x.band === 'high')!.elementA[
      r.analysis.index.elements.indexOf(`${b.id('lamp')}:led`)
    ]!;
    expect(amp).toBeGreaterThan(0.005);
    expect(amp).toBeLessThan(0.008);
  });
});

describe('pins', () => {
  it('take the mode that what is behind them asks for, and the sense pin is the sensor’s', () => {
    const b = bench()
      .part('button', 'push-button', 'desk')
      .part('lamp', 'led', 'desk')
      .part('r', 'resistor', 'desk')
      .wire('computer.11', 'button.1')
      .wire('button.2', 'computer.39')
      .wire('computer.13', 'r.1')
      .wire('r.2', 'lamp.A')
      .wire('lamp.K', 'computer.39');
    const r = computeResults(b.plan);
    // Header pins 36, 11, 13 are GPIO 16, 17, 27.
    expect(settingOf(r, b, 'computer', 'senseGpio')).toBe(16);
    expect(settingOf(r, b, 'computer', 'gpio16Mode')).toBe('in');
    expect(settingOf(r, b, 'computer', 'gpio17Mode')).toBe('in-up');
    expect(settingOf(r, b, 'computer', 'gpio27Mode')).toBe('out');
    expect(reasonOf(r, b, 'computer', 'gpio17Mode')).toContain('pull-up');
    const bare = bench().cut('pull+');
    expect(settingOf(computeResults(bare.plan), bare, 'computer', 'gpio16Mode')).toBe('in-up');
  });

  it('of two sensors that of the key is watched, whichever pin comes first on the header', () => {
    // GPIO 17 is pin 11, before GPIO 16 on pin 36.
    const b = bench()
      .part('feed58', 'feed-58', 'dash', {}, { owner: 'vehicle' })
      .part('lampFuse', 'blade-fuse', 'dash', { ratingA: 1 })
      .part('lampR', 'resistor', 'seat', { ohm: 2200 })
      .part('lampOpto', 'optocoupler', 'seat')
      .wire('battery.+', 'feed58.in', { owner: 'vehicle' })
      .wire('feed58.out', 'lampFuse.1', { lengthM: 0.1 })
      .wire('lampFuse.2', 'lampR.1', { lengthM: 2 })
      .wire('lampR.2', 'lampOpto.A', { lengthM: 0.1 })
      .wire('lampOpto.K', 'ground.31', { lengthM: 2 })
      .wire('lampOpto.C', 'computer.11', { lengthM: 0.2 })
      .wire('lampOpto.E', 'computer.9', { lengthM: 0.2 });
    const r = computeResults(b.plan);
    expect(settingOf(r, b, 'computer', 'senseGpio')).toBe(16);
    expect(reasonOf(r, b, 'computer', 'senseGpio')).toContain('opto');
  });
});

describe('the fuse of a store', () => {
  it('holds what the store gives when it feeds the converter alone: the input power at the least volts from which it runs', () => {
    const b = withStore();
    const fuse = b.plan.parts[b.id('storeFuse')]!;
    const r = computeResults({ ...b.plan, parts: { ...b.plan.parts, [fuse.id]: { ...fuse, settings: {} } } });
    // 1.2 A of 5 V at 0.88 and below is some 7 W: over 1 A at 6.7 V, at most 75 % loaded.
    expect(settingOf(r, b, 'storeFuse', 'ratingA')).toBeGreaterThanOrEqual(2);
    expect(reasonOf(r, b, 'storeFuse', 'ratingA')).toContain('out of the store');
  });
});
