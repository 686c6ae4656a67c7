import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { partKinds } from '../../src/parts/index.ts';
import * as edits from '../../src/plan/edits.ts';
import { RANGES } from '../../src/plan/limits.ts';
import type { Edit, Plan, Value } from '../../src/plan/types.ts';
import { createApp } from '../../src/state/store.ts';
import { smallPlan } from '../plan/laws.ts';
import { planOf } from './fakes.ts';

const { plan: first, ids } = smallPlan();

function reason(make: (plan: Plan) => Edit): string {
  const app = createApp();
  app.getState().load(first);
  const done = app.getState().apply(make(first));
  return done.ok ? '' : done.reason;
}

describe('values that no plan may hold', () => {
  it('are refused with the limit', () => {
    expect(reason((p) => edits.setWire(p, ids.feedWire, { lengthM: 200 }))).toBe('Length: 200 m is above the largest allowed, 100 m');
    expect(reason((p) => edits.setWire(p, ids.feedWire, { areaMm2: Number.NaN }))).toBe('Conductor size needs a number');
    expect(reason((p) => edits.setWire(p, ids.feedWire, { number: 1.5 }))).toBe('Wire number is a whole number');
    expect(reason((p) => edits.setRun(p, 'z1', 'z2', 500).edit)).toContain('Length of the run: 500 m');
    expect(reason((p) => edits.setZone(p, 'z1', { minC: 90, maxC: 20 }))).toBe('the smallest temperature is above the largest');
    expect(reason((p) => edits.setZone(p, 'z1', { name: '' }))).toBe('a zone needs a name');
    expect(reason((p) => edits.setVehicle(p, { batteryAh: 0 }))).toContain('Battery capacity: 0 Ah');
    expect(reason((p) => edits.setVehicle(p, { supplyV: { ACC: { low: -1, typical: 12, high: 13 } } }))).toContain('Supply voltage: -1 V');
    expect(reason((p) => edits.setHead(p, { title: 'x'.repeat(201) }))).toBe('The title is longer than 200 characters');
    expect(reason((p) => edits.setThreshold(p, 'k', Number.POSITIVE_INFINITY))).toBe('a limit needs a number');
    expect(reason((p) => edits.setWire(p, ids.feedWire, { lengthM: 100 }))).toBe('');
  });

  const number = fc.oneof(fc.double(), fc.integer({ min: -10, max: 200 }), fc.constantFrom(0.001, 0.05, 100, 150, 99_999));
  const text = fc.oneof(fc.string({ maxLength: 10 }), fc.constantFrom('', 'x'.repeat(79), 'x'.repeat(300), 'x'.repeat(6000)));
  const settings = [...partKinds.values()].flatMap((kind) => kind.settings.map((s) => [kind.kind, s.key] as const));

  it('let no value through that cannot be computed', () => {
    const { plan } = smallPlan();
    const at = (areaMm2: number, insulationC: number, maxC: number): Plan => ({
      ...plan,
      wires: Object.fromEntries(Object.entries(plan.wires).map(([id, w]) => [id, { ...w, areaMm2, insulationC }])),
      zones: Object.fromEntries(Object.entries(plan.zones).map(([id, z]) => [id, { ...z, maxC, minC: Math.min(maxC, 20) }])),
    });
    const { areaMm2, insulationC } = RANGES.wires;
    const { maxC } = RANGES.zones;
    for (const a of [areaMm2.min, areaMm2.max])
      for (const i of [insulationC.min, insulationC.max]) for (const m of [maxC.min, maxC.max]) expect(() => computeResults(at(a, i, m))).not.toThrow();
  });

  it('never get through the store: whatever it holds, a file of it can be read', () => {
    let refused = 0;
    let taken = 0;
    const check = (make: (plan: Plan) => Edit): void => {
      const app = createApp();
      app.getState().load(first);
      const done = app.getState().apply(make(first));
      if (done.ok) taken += 1;
      else refused += 1;
      const plan = planOf(app);
      expect(readPlan(writePlan(plan))).toStrictEqual({ ok: true, plan: JSON.parse(JSON.stringify(plan)), notes: [] });
    };
    const wireKey = fc.constantFrom('number', 'areaMm2', 'lengthM', 'insulationC');
    const vehicleKey = fc.constantFrom('batteryAh', 'parkedA', 'standingDays');
    const value: fc.Arbitrary<Value> = fc.oneof(number, text, fc.boolean());
    fc.assert(
      fc.property(number, text, wireKey, vehicleKey, fc.constantFrom(...settings), value, (n, t, wire, vehicle, [kind, key], v) => {
        check((p) => edits.setWire(p, ids.feedWire, { [wire]: n }));
        check((p) => edits.setWire(p, ids.feedWire, { note: t }));
        check((p) => edits.setRun(p, 'z1', 'z2', n).edit);
        check((p) => edits.setZone(p, 'z1', { maxC: n, name: t }));
        check((p) => edits.setVehicle(p, { [vehicle]: n, name: t }));
        check((p) => edits.setHead(p, { title: t, note: t }));
        check((p) => edits.renamePart(p, ids.fuse, t));
        check((p) => edits.addPart(p, { kind, zone: 'z2', x: n, y: 0, settings: { [key]: v } }).edit);
      }),
      { numRuns: 150 },
    );
    expect(refused).toBeGreaterThan(200);
    expect(taken).toBeGreaterThan(200);
  });
});
