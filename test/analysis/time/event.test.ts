import { describe, expect, it } from 'vitest';
import { timeBaseOf } from '../../../src/advise/inTime.ts';
import { type EventRun, runEvent } from '../../../src/analysis/time/index.ts';
import type { Plan } from '../../../src/plan/types.ts';
import { eventProfiles, jumpStart, loadDump, pulse1, reversedBattery, startingProfile } from '../../../src/trade/profiles.ts';
import { demoPlan } from '../../bench/largePlan.ts';
import { bench } from '../../rules/plans.ts';

const run = (plan: Plan, ...more: [Parameters<typeof runEvent>[1], Parameters<typeof runEvent>[2]?]): EventRun => {
  const done = runEvent(timeBaseOf(plan), ...more);
  expect(done.outcome).toBe('done');
  return done;
};
const input = (r: EventRun) => r.seen.find((s) => s.id === 'input')!;
const five = (r: EventRun) => r.seen.find((s) => s.id === 'five')!;

describe('events of the supply at the build', () => {
  it('a clamped load dump of 35 V passes a clamp that breaks down from 36.7 V: the converter sees it whole', () => {
    const seen = input(run(demoPlan, loadDump(12, 'B')));
    expect(seen.mostV).toBeGreaterThan(33.5);
    expect(seen.mostV).toBeLessThanOrEqual(35);
  });

  it('an unclamped one of 101 V behind 0.5 ohm is held down by the clamp as the divider of its slope says', () => {
    const b = bench();
    const seen = input(run(b.plan, loadDump(12, 'A')));
    // Breakdown 36.7 V to 40.6 V, 53.3 V at 11.3 A: slope 1.1 ohm; feed and battery 0.55 ohm at the least.
    const slope = (53.3 - 40.6) / 11.3;
    const held = (brV: number, ohm: number): number => (101 * slope + brV * ohm) / (slope + ohm);
    expect(seen.mostV).toBeGreaterThan(held(36.7, 0.85) - 2);
    expect(seen.mostV).toBeLessThan(held(40.6, 0.5));
  });

  it('the computer notices neither, nor a jump start of 26 V', () => {
    for (const profile of [loadDump(12, 'B'), jumpStart()]) {
      expect(five(run(demoPlan, profile)).mostV).toBeLessThan(5.25);
      expect(five(run(demoPlan, profile)).leastV).toBeGreaterThan(4.75);
    }
    expect(input(run(demoPlan, jumpStart())).mostV).toBeCloseTo(26, 0);
  });

  it('a series diode keeps pulse 1 and a reversed battery from the converter', () => {
    const diode = bench().set('guard', { type: 'schottky', dropV: 0.85, reverseV: 200 }).plan;
    const inside = (profile: Parameters<typeof runEvent>[1]) => input(run(diode, profile)).leastV;
    expect(inside(pulse1(12))).toBeGreaterThan(-1);
    expect(inside(reversedBattery(12))).toBeGreaterThan(-1);
  });

  it('cranking shows its dip at the battery', () => {
    const { seen } = run(demoPlan, startingProfile(12, 'II'), { state: 'RUN_STOPPED', band: 'low' });
    expect(seen[0]).toMatchObject({ id: 'battery' });
    expect(seen[0]!.leastV).toBeCloseTo(4.5, 1);
    expect(seen[0]!.leastS).toBeLessThan(0.0201);
  });

  it('every event of both systems comes to its end with finite numbers', () => {
    for (const systemV of [12, 24] as const) {
      const { plan } = bench('events', { systemV });
      for (const profile of eventProfiles(systemV, 'III')) {
        for (const s of run(plan, profile).seen) expect([s.leastV, s.mostV].every(Number.isFinite), profile.id).toBe(true);
      }
    }
  });
});
