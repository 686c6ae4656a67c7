import { describe, expect, it } from 'vitest';
import { computeResults } from '../../../src/advise/index.ts';
import { timeBaseOf } from '../../../src/advise/inTime.ts';
import { parkedWeeks } from '../../../src/analysis/time/index.ts';
import type { ParkedWeeks } from '../../../src/analysis/time/types.ts';
import type { Vehicle } from '../../../src/plan/types.ts';
import { selfDischargeA } from '../../../src/trade/battery.ts';
import { demoPlan } from '../../bench/largePlan.ts';
import { type Bench, fused } from '../../rules/plans.ts';

/** A resistance on permanent 30 that draws so much from 12.6 V; a thousandth is lost in wires. */
const drawing = (amp: number, vehicle: Partial<Vehicle>): Bench =>
  fused('parked', vehicle)
    .part('load', 'resistor', 'seat', { ohm: 12.6 / amp, ratedW: 5 })
    .wire('fuse.2', 'load.1', { lengthM: 1, areaMm2: 1 })
    .wire('load.2', 'ground.31', { lengthM: 1, areaMm2: 1 });
const weeksOf = (b: Bench): ParkedWeeks => parkedWeeks(timeBaseOf(b.plan));
const SIXTY = { batteryAh: 60, parkedA: 0.03 } as const;

describe('60 Ah, 30 mA of the vehicle', () => {
  it('lasts 30 days alone: 24 Ah over 30 mA and 3.3 mA of self-discharge (4 % a month, from memory)', () => {
    const w = weeksOf(drawing(0.077, SIXTY));
    expect(w.daysToLimitWithout).toBeCloseTo(24 / (24 * (0.03 + (60 * 0.04) / 720)), 6);
    expect(w.daysToLimitWithout).toBeCloseTo(30, 0);
  });

  it('with a converter and an older halted board, 77 mA: 9.1 days (worked by hand)', () => {
    expect(weeksOf(drawing(0.077, SIXTY)).daysToLimit).toBeCloseTo(9.1, 1);
  });

  it('crosses the start limit where it says, on its way from full', () => {
    const w = weeksOf(drawing(0.077, SIXTY));
    expect(w.startLimit).toBeCloseTo(0.6, 9);
    expect([w.days[0], w.chargeWith[0], w.chargeWithout[0]]).toEqual([0, 1, 1]);
    const k = w.days.findIndex((d) => d > w.daysToLimit);
    expect(w.chargeWith[k]!).toBeLessThan(0.6);
    expect(w.chargeWith[k - 1]!).toBeGreaterThanOrEqual(0.6);
    w.chargeWith.forEach((c, i) => {
      expect(c).toBeLessThanOrEqual(w.chargeWithout[i]!);
      expect(c).toBeGreaterThanOrEqual(0);
    });
    expect(w.days.at(-1)!).toBeGreaterThan(w.daysToLimitWithout);
  });

  it('cutting the load off would buy what it costs', () => {
    const [gain, ...more] = weeksOf(drawing(0.077, SIXTY)).gains;
    expect(more).toEqual([]);
    expect(gain!.what).toContain('load');
    expect(gain!.days).toBeCloseTo(30 - 9.1, 0);
  });

  it('the largest draw comes first, and an isolator beats them all', () => {
    const b = drawing(0.01, { ...SIXTY, isolator: true }).part('more', 'resistor', 'seat', { ohm: 400, ratedW: 5 });
    const w = weeksOf(b.wire('fuse.2', 'more.1', { lengthM: 1 }).wire('more.2', 'ground.31', { lengthM: 1 }));
    expect(w.gains.map((g) => g.part)).toEqual([null, b.id('more'), b.id('load')]);
    // Nothing but self-discharge is left: 24 Ah over 3.3 mA is 300 days.
    expect(w.gains[0]!.days + w.daysToLimit).toBeCloseTo(300, 6);
  });
});

describe('temperature', () => {
  it('self-discharge doubles per 10 K (from memory): 4 % a month at 25 °C', () => {
    expect(selfDischargeA(60, 25)).toBeCloseTo(0.00333, 5);
    expect(selfDischargeA(60, 35)).toBeCloseTo(0.00667, 5);
    expect(selfDischargeA(60, 5)).toBeCloseTo(0.00083, 5);
  });
  it('shortens the weeks in the heat', () => {
    const b = drawing(0.077, { ...SIXTY, parkedC: 45 });
    const hot = weeksOf(b);
    // 4 times 3.3 mA.
    expect(hot.daysToLimitWithout).toBeCloseTo(1 / (0.03 + 0.0133333), 2);
    expect(hot.daysToLimit).toBeLessThan(9.1);
    // The plain answer follows the same setting.
    expect(computeResults(b.plan).analysis.parked.days).toBeCloseTo(hot.daysToLimit, 3);
  });
});

describe('the demo', () => {
  it('agrees with the parked report of its results', () => {
    const w = parkedWeeks(timeBaseOf(demoPlan));
    const { parked } = computeResults(demoPlan).analysis;
    expect(w.daysToLimit).toBeCloseTo(parked.days, 3);
    expect(w.daysToLimitWithout).toBeCloseTo(parked.daysWithout, 6);
    // A tenth of a milliampere is not worth a change.
    expect(w.gains).toEqual([]);
  });
});
