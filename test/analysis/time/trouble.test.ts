import { describe, expect, it } from 'vitest';
import { timeBaseOf } from '../../../src/advise/inTime.ts';
import { defaultScenario, keyCycle } from '../../../src/analysis/time/index.ts';
import type { KeyCycle, Scenario } from '../../../src/analysis/time/types.ts';
import type { Plan } from '../../../src/plan/types.ts';
import { bench } from '../../rules/plans.ts';

const turn = (plan: Plan, more: Partial<Scenario> = {}): KeyCycle => keyCycle(timeBaseOf(plan), { ...defaultScenario(plan), ...more });
const told = (cycle: KeyCycle, words: string) => cycle.events.filter((e) => e.label.includes(words));

describe('a choke straight ahead of a converter', () => {
  it('is followed to the end: the capacitors at the converter’s own input lie between', () => {
    const b = bench('choke')
      .without('guard', 'bulk')
      .part('choke', 'choke', 'seat', { henry: 100e-6 })
      .wire('relay.87', 'choke.1', { lengthM: 0.3 })
      .wire('choke.2', 'converter.in', { lengthM: 0.1 });
    const cycle = turn(b.plan, { band: 'low' });
    expect(cycle.outcome).toBe('done');
    expect(cycle.computers.map((c) => c.state)).toContain('up');
  });
});

describe('an output dragged down', () => {
  // 100 F empty on 5 V: at 8 A some 60 s to fill; a converter that pauses gives it 10 ms at a time (100 F · 5 V / 8 A, worked by hand).
  const dragged = (pauseS: number) =>
    bench('dragged')
      .part('tank', 'capacitor', 'seat', { farad: 100, ratedV: 5.4, esrOhm: 0.02, leakA: 1e-4 })
      .set('converter', { pauseS })
      .set('fuse', { ratingA: 15 })
      .wire('converter.out', 'tank.+', { lengthM: 0.2, areaMm2: 1.5 })
      .wire('tank.-', 'converter.0v', { lengthM: 0.2, areaMm2: 1.5 });

  it('a converter that pauses never gets there, and says so once, not at every try', () => {
    const cycle = turn(dragged(0.05).plan);
    expect(cycle.outcome).toBe('done');
    expect(told(cycle, 'is overloaded and pauses')).toHaveLength(1);
    expect(cycle.computers.map((c) => c.state)).toEqual(['off']);
    expect(cycle.accepted).toBeLessThan(20_000);
  });

  it('one that holds its limit fills it in C V / I, and the computer comes up late', () => {
    const cycle = turn(dragged(0).plan, { keyOffS: 200, untilS: 300 });
    expect(told(cycle, 'overloaded')).toHaveLength(0);
    const boots = cycle.computers.find((c) => c.state === 'booting')!;
    const limitA = 7;
    expect(boots.fromS - cycle.scenario.keyOnS).toBeGreaterThan((0.9 * 100 * 4.75) / (limitA + 1));
    expect(boots.fromS - cycle.scenario.keyOnS).toBeLessThan((1.2 * 100 * 4.75) / (limitA - 1));
  });
});

describe('how long a converter bears an overload', () => {
  // 10 000 µF with 0.9 A left over take 57 ms (C V / I, worked by hand). The plan's own limit decides in the strip as it does in the rule.
  const slow = (hiccupS: number) => {
    const { plan } = bench('slow start')
      .set('converter', { limitMinA: 2.15, limitMaxA: 2.15, ratedA: 2, pauseS: 0.05 })
      .part('big', 'capacitor', 'seat', { farad: 0.01, ratedV: 16, tol: 0.001 })
      .wire('big.+', 'converter.out', { lengthM: 0.05 })
      .wire('big.-', 'converter.0v', { lengthM: 0.05 });
    return { ...plan, thresholds: { ...plan.thresholds, hiccupS } };
  };

  it('is the plan’s own limit', () => {
    expect(told(turn(slow(0.01)), 'is overloaded and pauses')).toHaveLength(1);
    expect(told(turn(slow(0.5)), 'overloaded')).toHaveLength(0);
  });
});

describe('the vehicle’s own fuse', () => {
  // 10 A carry 1.35 times for ten minutes and more; with 20 A of the vehicle's beside it 12 A more than it carries (ISO 8820-3 gates).
  const donor = (donorFuseRead: boolean) => bench('donor').set('feed30', { donorFuseA: 10, donorFuseRead, donorLoadA: 20 });

  it('melts when what the vehicle draws and what the build draws are too much together, once it has been read', () => {
    const [melts] = told(turn(donor(true).plan), 'own fuse ahead of');
    expect(melts?.label).toMatch(/^The vehicle’s own fuse ahead of X\d+ .* melts$/);
  });

  it('is not guessed at before that', () => {
    expect(told(turn(donor(false).plan), 'own fuse ahead of')).toEqual([]);
  });

  it('carries the build beside a usual load', () => {
    expect(told(turn(bench().set('feed30', { donorFuseA: 15, donorFuseRead: true, donorLoadA: 4 }).plan), 'own fuse')).toEqual([]);
  });
});
