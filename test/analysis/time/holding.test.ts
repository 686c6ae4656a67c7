import { describe, expect, it } from 'vitest';
import { settlePlan } from '../../../src/advise/settle.ts';
import { analyse } from '../../../src/analysis/index.ts';
import { defaultScenario, keyCycle, timeBase } from '../../../src/analysis/time/index.ts';
import type { KeyCycle, Scenario } from '../../../src/analysis/time/types.ts';
import type { Band, Plan, VehicleState } from '../../../src/plan/types.ts';
import { type Bench, bench, fused } from '../../rules/plans.ts';

function turn(plan: Plan, more: Partial<Scenario> = {}): KeyCycle {
  const { filled, known } = settlePlan(plan);
  const cycle = keyCycle(timeBase(filled, known), { ...defaultScenario(plan), ...more });
  expect(cycle.outcome).toBe('done');
  return cycle;
}
const at = (cycle: KeyCycle, words: string): number | undefined => cycle.events.find((e) => e.label.includes(words))?.tS;
const sinceOff = (cycle: KeyCycle, words: string): number => (at(cycle, words) ?? Number.NaN) - cycle.scenario.keyOffS;

/** Is a device on at the end of the walk to a state? */
function walked(b: Bench): (part: string, device: string, state: VehicleState, band: Band) => boolean {
  const { filled } = settlePlan(b.plan);
  const { analysis } = analyse(filled);
  return (part, device, state, band) => {
    const reading = analysis.readings.find((r) => r.state === state && r.band === band)!;
    expect(reading.trouble).toBeNull();
    return reading.deviceOn[analysis.index.devices.indexOf(`${b.id(part)}:${device}`)] === 1;
  };
}

/** The small build with a hold latch for its relay: set by ignition, kept closed by GPIO 20. */
const latched = (settings = {}) =>
  bench('latched')
    .without('relay')
    .part('latch', 'hold-latch', 'seat', settings)
    .set('computer', { gpio20Mode: 'out' })
    .wire('fuse.2', 'latch.in', { lengthM: 2.1 })
    .wire('latch.out', 'guard.in', { lengthM: 0.2 })
    .wire('latch.gnd', 'converter.gnd', { lengthM: 0.3 })
    .wire('senseFuse.2', 'latch.set', { lengthM: 2.3 })
    .wire('latch.hold', 'computer.38', { lengthM: 0.3 });

describe('a hold latch', () => {
  const low = turn(latched().plan, { band: 'low' });

  it('is closed by the key, kept closed by the pin, and opens 3.5 s after the computer has stopped', () => {
    // Stop of 3 + 3 + 25 s; 5 s less 30 % after it, worked by hand.
    expect(at(low, 'latch closes')).toBeGreaterThan(low.scenario.keyOnS);
    const [margin] = low.margins;
    expect(margin!.stoppedS! - low.scenario.keyOffS).toBeCloseTo(31, 1);
    expect(sinceOff(low, 'latch opens')).toBeCloseTo(34.55, 1);
    expect(margin!.openedBy).toBe('K2 latch');
    expect(margin!.brownOuts).toEqual([]);
    expect(low.computers.map((c) => c.state)).toEqual(['off', 'booting', 'up', 'stopping', 'halted', 'off']);
  });
  it('opens at its backstop when the computer never stops', () => {
    const hung = turn(latched({ backstopS: 60 }).set('computer', { senseGpio: 0 }).plan, { untilS: 300 });
    expect(sinceOff(hung, 'has run out of time')).toBeCloseTo(60, 1);
    expect(sinceOff(hung, 'latch opens')).toBeCloseTo(60.05, 1);
  });
  it('is open when parked, at the end of the walk through all key positions', () => {
    const on = walked(latched());
    for (const band of ['low', 'typical', 'high'] as const) {
      expect(on('latch', 'latch', 'RUN_STOPPED', band)).toBe(true);
      expect(on('latch', 'latch', 'START', band)).toBe(true);
      expect(on('latch', 'latch', 'RETAIN', band)).toBe(true);
      expect(on('latch', 'latch', 'OFF_ASLEEP', band)).toBe(false);
    }
  });
});

describe('a low-voltage cut-out', () => {
  const cut = (settings = {}) =>
    bench('cut')
      .into('feed', 'cutout', 'low-voltage-cutout', ['in', 'out'], settings)
      .wire('cutout.gnd', 'ground.31', { lengthM: 0.3 })
      .wire('cutout.warn', 'computer.40', { lengthM: 2 });

  it('changes nothing while the battery is well, also in cranking', () => {
    const cycle = turn(cut().plan);
    expect(cycle.margins[0]!.brownOuts).toEqual([]);
    expect(sinceOff(cycle, 'relay has run out')).toBeCloseTo(90, 1);
    expect(at(cycle, 'cutout opens')).toBeUndefined();
  });
  it('has cut off a battery of 11.5 V at the end of the walk, and joins again while it is charged', () => {
    const on = walked(cut());
    expect(on('cutout', 'contact', 'RUN_STOPPED', 'typical')).toBe(true);
    expect(on('cutout', 'contact', 'RUN_STOPPED', 'low')).toBe(false);
    expect(on('cutout', 'contact', 'RUN_CHARGING', 'low')).toBe(true);
    // Just after the key has gone its delays still hold.
    expect(on('cutout', 'contact', 'RETAIN', 'low')).toBe(true);
    expect(on('cutout', 'warning', 'RUN_STOPPED', 'typical')).toBe(true);
  });
  it('carries its whole load where wires and fuses are chosen, wherever it cuts off', () => {
    // 12.2 V is the highest usual level (common practice, no source): a battery at rest under load lies below it.
    const chosen = (b: Bench) => {
      const { filled } = settlePlan(b.plan);
      const { analysis } = analyse(filled);
      return { a: analysis.wires[b.wireId('out')]!.heatA, peakA: analysis.wires[b.wireId('out')]!.peakA, fuseA: filled.parts[b.id('fuse')]!.settings.ratingA };
    };
    const early = chosen(cut({ cutV: 12.2, warnV: 12.5 }));
    const plain = chosen(bench('plain'));
    expect(plain.a).toBeGreaterThan(0.5);
    expect(early.a / plain.a).toBeCloseTo(1, 1);
    expect(early.peakA / plain.peakA).toBeCloseTo(1, 1);
    expect(early.fuseA).toBe(plain.fuseA);
  });
  it('takes a running computer down as what opened its supply when it has no time to warn', () => {
    // The low band comes down to 11.5 V after key-off: one level at 12 V, and a stop of two minutes.
    const b = cut({ warns: false, cutV: 12, delayS: 5 }).cut('cutout.warn>computer.40').set('computer', { osS: 120 });
    const cycle = turn(b.plan, { band: 'low', untilS: 300 });
    expect(cycle.margins[0]!.openedBy).toContain('cutout');
    expect(cycle.margins[0]!.spareS!).toBeLessThan(0);
  });
});

describe('supercapacitors behind a charge limiter', () => {
  /** Fed from ignition alone: what carries the computer after key-off is the store. */
  const carried = (cells = {}) =>
    bench('carried')
      .without('relay', 'feed30', 'fuse')
      .cut('toConverter', 'bulk+', 'bulk-')
      .without('bulk')
      .wire('senseFuse.2', 'guard.in', { lengthM: 2 })
      .part('limiter', 'charge-limiter', 'seat')
      .part('storeFuse', 'blade-fuse', 'seat')
      .part('store', 'store', 'seat', cells)
      .wire('guard.out', 'limiter.in', { lengthM: 0.1 })
      .wire('limiter.out', 'converter.in', { lengthM: 0.1 })
      .wire('limiter.gnd', 'converter.gnd', { lengthM: 0.1 })
      .wire('limiter.store', 'storeFuse.1', { lengthM: 0.1 })
      .wire('storeFuse.2', 'store.+', { lengthM: 0.1 })
      .wire('store.-', 'converter.gnd', { lengthM: 0.1 });
  const drive = (b: Bench): KeyCycle => turn(b.plan, { keyOffS: 400, doorS: null, untilS: 600 });

  it('carry it through its whole stop once they are full', () => {
    const cycle = drive(carried());
    const [margin] = cycle.margins;
    expect(margin!.stoppedS! - 400).toBeCloseTo(31, 0);
    expect(margin!.brownOuts).toEqual([]);
    // 16.7 F from 13.4 V to some 6.7 V hold 1120 J: over a minute at the peak of a full-size board (1.34 A at 5.12 V).
    expect(margin!.powerFellS === null || margin!.powerFellS - 400 > 60).toBe(true);
  });
  it('do not when they are small, nor before they are full', () => {
    const small = drive(carried({ cellFarad: 5 }));
    expect(small.margins[0]!.stoppedS).toBeNull();
    expect(small.margins[0]!.spareS!).toBeLessThan(0);
    const early = turn(carried().plan, { keyOffS: 60, doorS: null, untilS: 200 });
    expect(early.margins[0]!.stoppedS).toBeNull();
    // The plan's own turn of the key is long enough for 16.7 F to fill to 15 V at the least of 1 A (worked by hand: 278 s).
    expect(defaultScenario(carried().plan).keyOffS).toBeGreaterThan(278);
  });
  it('are a source of their own: nothing but their fuse protects what hangs on them', () => {
    const b = carried();
    const { filled } = settlePlan(b.plan);
    const wires = analyse(filled).analysis.wires;
    const toFuse = wires[b.wireId('storeFuse.2>store.+')]!;
    expect(toFuse.protection.from.maxA === Number.POSITIVE_INFINITY || toFuse.protection.to.maxA === Number.POSITIVE_INFINITY).toBe(true);
    const toLimiter = wires[b.wireId('limiter.store>storeFuse.1')]!;
    expect(Math.max(toLimiter.protection.from.maxA, toLimiter.protection.to.maxA)).toBeLessThan(50);
  });
  it('take the rail that fills them: vehicle supply behind a feed, 5 V behind a converter', () => {
    const roles = (b: Bench, wire: string) => {
      const { role, nominalV } = analyse(settlePlan(b.plan).filled).analysis.wires[b.wireId(wire)]!;
      return [role, nominalV];
    };
    expect(roles(carried(), 'storeFuse.2>store.+')).toEqual(['supply', 12]);
    const onFive = bench('five')
      .part('cells', 'store', 'seat', { cells: 3 })
      .wire('cells.+', 'converter.out', { lengthM: 0.1 })
      .wire('cells.-', 'converter.0v', { lengthM: 0.1 });
    expect(roles(onFive, 'cells.+>converter.out')).toEqual(['rail5', 5]);
    expect(roles(onFive, 'five')).toEqual(['rail5', 5]);
    // Nothing fills it: 6 x 2.7 V.
    const alone = fused('alone').part('store', 'store', 'seat').part('r', 'resistor', 'seat').wire('store.+', 'r.1').wire('r.2', 'store.-');
    expect(roles(alone, 'store.+>r.1')[1]).toBeCloseTo(16.2, 9);
  });
  it('are at rest empty when parked, and full and unburdened while running', () => {
    const b = carried();
    const { analysis } = analyse(settlePlan(b.plan).filled);
    const storeV = (state: VehicleState, band: Band): number => {
      const r = analysis.readings.find((x) => x.state === state && x.band === band)!;
      expect(r.trouble, `${state} ${band}`).toBeNull();
      const v = (terminal: string): number => r.terminalV[analysis.index.terminals.indexOf(`${b.id('store')}.${terminal}`)]!;
      // Leakage is all that flows: half a milliamp (from memory).
      expect(Math.abs(r.wireA[analysis.index.wires.indexOf(b.wireId('storeFuse.2>store.+'))]!)).toBeLessThan(0.001);
      return v('+') - v('-');
    };
    for (const band of ['low', 'typical', 'high'] as const) {
      expect(storeV('OFF_ASLEEP', band)).toBeLessThan(0.1);
      expect(storeV('RUN_CHARGING', band)).toBeGreaterThan(11.8);
      // The limiter stops at 15 V however high the supply is.
      expect(storeV('RUN_CHARGING', band)).toBeLessThan(15.01);
    }
  });
});

describe('a store on its own feed', () => {
  it('does not keep the plan from settling', () => {
    const b = fused('direct').part('store', 'store', 'seat').wire('fuse.2', 'store.+', { lengthM: 1 }).wire('store.-', 'ground.31', { lengthM: 1 });
    const { filled } = settlePlan(b.plan);
    for (const r of analyse(filled).analysis.readings) expect(r.trouble, `${r.state} ${r.band}`).toBeNull();
  });
});
