import { describe, expect, it } from 'vitest';
import { factWords } from '../../src/advise/factWords.ts';
import { diffPlans } from '../../src/plan/diff.ts';
import { DEFAULT_VEHICLE, emptyPlan } from '../../src/plan/new.ts';
import type { Vehicle } from '../../src/plan/types.ts';
import { limits } from '../../src/rules/limits.ts';

const words = (before: Partial<Vehicle>, after: Partial<Vehicle>): string[] =>
  diffPlans(emptyPlan('x', before, 'x'), emptyPlan('x', after, 'x')).head.map((field) => {
    const said = factWords(field);
    return said ? `${said.name}: ${said.before} → ${said.after}` : `nothing of ${field.field}`;
  });

describe('facts of the vehicle in words', () => {
  const other: Required<Vehicle> = {
    name: 'Van',
    systemV: 24,
    polarity: 'unknown',
    batteryAh: 90,
    centralClamping: 'yes',
    dipLevel: 'III',
    parkedA: 0.02,
    standingDays: 30,
    stopStart: true,
    remoteStart: true,
    electrified: true,
    isolator: true,
    engineOffH: 2,
    batterySensor: 'yes',
    parkedC: 30,
    supplyV: { START: { low: 6, typical: 8, high: 10 } },
  };

  it('every one is said, with before and after', () => {
    expect(words({}, other)).toEqual([
      'Battery capacity: 60 Ah → 90 Ah',
      'Sensor at the battery’s negative post: not known → yes',
      'Alternator clamps a load dump: not known → yes',
      'Cranking dip, level: I → III',
      'Driven electrically, wholly or in part: no → yes',
      'Use with the engine off: not said → 2 h',
      'Battery isolator switch: no → yes',
      'Name of the vehicle: none → “Van”',
      'Parked draw of the vehicle itself: 30 mA → 20 mA',
      'Temperature of the parked battery: as usual → 30 °C',
      'Battery pole on the body: negative → not known',
      'Can be started from a distance: no → yes',
      'Standing time: 21 days → 30 days',
      'Engine stops and restarts by itself: no → yes',
      'Supply voltages measured: as in the table → starting 6 V / 8 V / 10 V',
      'System voltage: 12 V → 24 V',
    ]);
    expect(Object.keys(other).sort()).toEqual([...new Set([...Object.keys(DEFAULT_VEHICLE), 'engineOffH', 'batterySensor', 'parkedC', 'supplyV'])].sort());
  });

  it('measured voltages are told by state and band', () => {
    const start = { low: 6, typical: 8, high: 10 };
    expect(words({ supplyV: { START: start } }, { supplyV: { START: { ...start, low: 5.5 } } })).toEqual(['Supply voltage, starting, low: 6 V → 5.5 V']);
    expect(words({ supplyV: { START: start } }, { supplyV: { START: start, ACC: start } })).toEqual([
      'Supply voltage, accessory: as in the table → 6 V / 8 V / 10 V',
    ]);
  });
});

describe('limits in words', () => {
  it.each(limits.map((l) => [l.key, l] as const))('%s: its own figure, and the default where there was none', (key, limit) => {
    const said = factWords({ field: `thresholds.${key}`, before: undefined, after: limit.most });
    expect(said?.name).toBe(`Limit: ${limit.title}`);
    expect(said?.before).toMatch(/\(default\)$/);
    expect(said?.after).not.toMatch(/default/);
    expect(said?.before).toMatch(limit.unit === 'share' ? /^[\d.]+ % \(/ : /^\d/);
  });

  it('of a rule that is no more keep their key', () => {
    expect(factWords({ field: 'thresholds.old.thing', before: 2, after: undefined })).toEqual({ name: 'Limit: old.thing', before: '2', after: 'default' });
  });

  it('what is neither says nothing', () => {
    expect(factWords({ field: 'title', before: 'a', after: 'b' })).toBeNull();
  });
});
