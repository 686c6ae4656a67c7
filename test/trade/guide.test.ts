import { describe, expect, it } from 'vitest';
import { fitLeads, GROUND_RULES, GUIDE_STEPS, type GuideStep, LEADS, LEAVE_ALONE } from '../../src/trade/guide.ts';

/** Eight readings in the order of the survey: asleep, accessory, ignition, start, running, key just off, door open, lamps on. */
const COUNTED = GUIDE_STEPS.filter((s) => s.counts).map((s) => s.id);
const survey = (...volts: number[]): Partial<Record<GuideStep, number>> => Object.fromEntries(volts.map((v, i) => [COUNTED[i]!, v]));
const ids = (readings: Partial<Record<GuideStep, number>>, systemV = 12): string[] => fitLeads(readings, systemV).fits.map((f) => f.id);

describe('what a lead is', () => {
  // Readings as a workshop table gives them (common practice).
  it.each([
    ['accessory', survey(0, 12.2, 12.1, 0, 14.2, 0, 0, 12.1), 12],
    ['retained', survey(0, 12.2, 12.1, 0, 14.2, 12.4, 0, 12.1), 12],
    ['ignition', survey(0, 0, 12.1, 9.8, 14.2, 0, 0, 12.1), 12],
    ['run-only', survey(0, 0, 12.1, 0, 14.2, 0, 0, 12.1), 12],
    ['start', survey(0, 0, 0, 9.6, 0, 0, 0, 0), 12],
    ['charging', survey(0, 0, 1.2, 1.5, 14.3, 0, 0, 1.1), 12],
    ['accessory', survey(0, 24.4, 24.2, 0, 28.4, 0, 0, 24.2), 24],
    ['two-wire-bus', { accessory: 2.6, ignition: 2.4, start: 2.5, running: 2.6, asleep: 0.1, 'key-off': 2.4, 'door-open': 2.5, 'lamps-on': 2.5 }, 24],
  ] as const)('%s', (id, readings, systemV) => {
    const fit = fitLeads(readings, systemV);
    expect(fit.fits.map((f) => f.id)).toEqual([id]);
    expect(fit.sure).toBe(true);
  });

  it('permanent and saver-protected look alike until an hour has passed', () => {
    const readings = survey(12.6, 12.3, 12.1, 9.7, 14.2, 12.7, 12.4, 12.1);
    expect(ids(readings)).toEqual(['permanent', 'saver']);
    expect(fitLeads(readings, 12).sure).toBe(false);
    expect(ids({ ...readings, 'hour-later': 12.6 })).toEqual(['permanent']);
    expect(ids({ ...readings, 'hour-later': 0 })).toEqual(['saver']);
  });

  it('lamps are told from dimmed lamps by the dimmer', () => {
    const readings = survey(0, 0, 0, 0, 0, 0, 0, 12.1);
    expect(ids(readings)).toEqual(['side-lamps', 'dimmed-lamps']);
    expect(ids({ ...readings, 'dimmer-low': 12.1 })).toEqual(['side-lamps']);
    expect(ids({ ...readings, 'dimmer-low': 4 })).toEqual(['dimmed-lamps']);
  });

  it('a dead lead may be several things; radio, reverse and the rest tell them apart', () => {
    const dead = survey(0, 0, 0, 0, 0, 0, 0, 0);
    expect(ids(dead)).toEqual(['remote', 'reversing', 'ground', 'speaker']);
    expect(ids({ ...dead, 'radio-on': 12 })).toEqual(['remote']);
    expect(ids({ ...dead, 'radio-on': 6.2 })).toEqual(['speaker']);
    expect(ids({ ...dead, reverse: 12.1, 'radio-on': 0 })).toEqual(['reversing']);
  });

  it('is never sure on few readings, nor of nothing', () => {
    expect(fitLeads(survey(0, 0, 0, 9.6), 12)).toMatchObject({ entered: 4, sure: false });
    expect(fitLeads({}, 12)).toEqual({ fits: LEADS, entered: 0, sure: false });
    expect(fitLeads(survey(7, 3, 12, 0, 1, 12, 3, 9), 12).fits).toEqual([]);
  });
});

describe('the guide itself', () => {
  it('every row reads at some step, says how to use it, and what must not be tapped is marked', () => {
    for (const row of LEADS) {
      expect(Object.keys(row.reads).length, row.id).toBeGreaterThan(2);
      expect(row.how, row.id).toMatch(/\.$/);
      if (row.use === 'leave') expect(`${row.how} ${row.warning ?? ''}`, row.id).toMatch(/never|leave/i);
    }
    expect(new Set(LEADS.map((r) => r.id)).size).toBe(LEADS.length);
  });
  it('warns of covers, twisted pairs and shorting bars before any reading', () => {
    expect(LEAVE_ALONE.map((l) => l.id)).toEqual(['yellow-cover', 'orange-cover', 'twisted-pair', 'shorting-bar']);
    expect(GROUND_RULES.length).toBeGreaterThan(5);
  });
});
