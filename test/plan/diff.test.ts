import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apply } from '../../src/plan/apply.ts';
import { diffPlans, isSame, madeDiff } from '../../src/plan/diff.ts';
import { addPart, movePart, removeItems, setHead, setPart, setSetting, setThreshold, setVehicle, setWire } from '../../src/plan/edits.ts';
import type { Edit, Id, Plan } from '../../src/plan/types.ts';
import { nonsensePlan } from '../properties/arbitraries.ts';
import { runs } from '../runs.ts';
import { proven, smallPlan } from './laws.ts';

const { plan, ids } = smallPlan();

describe('what differs between two plans', () => {
  it('names the fields, with what they were and are', () => {
    let next = proven(plan, setSetting(plan, ids.fuse, 'ratingA', 7.5));
    next = proven(next, setWire(next, ids.feedWire, { areaMm2: 2.5, colour: undefined }));
    next = proven(next, setHead(next, { title: 'Other' }));
    const diff = diffPlans(plan, next);
    expect(diff.parts.changed).toEqual([
      { id: ids.fuse, before: plan.parts[ids.fuse], after: next.parts[ids.fuse], fields: [{ field: 'settings.ratingA', before: 5, after: 7.5 }] },
    ]);
    expect(diff.wires.changed[0]?.fields).toEqual([
      { field: 'areaMm2', before: 1.5, after: 2.5 },
      { field: 'colour', before: 'RD', after: undefined },
    ]);
    expect(diff.head).toEqual([{ field: 'title', before: 'Small', after: 'Other' }]);
  });

  it('tells what came from what went', () => {
    const added = addPart(plan, { kind: 'splice', zone: 'z2', x: 0, y: 0 });
    const more = proven(plan, added.edit);
    const less = proven(more, removeItems(more, [ids.resistor]));
    const diff = diffPlans(plan, less);
    expect(diff.parts.added.map((p) => p.id)).toEqual([added.id]);
    expect(diff.parts.removed.map((p) => p.id)).toEqual([ids.resistor]);
    expect(diff.wires.removed.map((w) => w.id)).toEqual([ids.loadWire]);
    expect([...diff.parts.changed, ...diff.wires.changed]).toEqual([]);
  });

  it('leaves out, for the vehicle, what only moved on the drawing or was noted', () => {
    let next = proven(plan, movePart(plan, ids.fuse, { x: 90, y: 90 }));
    next = proven(next, setPart(next, ids.resistor, { note: 'behind the trim', fitted: true }));
    expect(diffPlans(plan, next).parts.changed.map((r) => r.id)).toEqual([ids.fuse, ids.resistor]);
    expect(isSame(madeDiff(diffPlans(plan, next)))).toBe(true);
    next = proven(next, movePart(next, ids.fuse, { x: 90, y: 90, zone: 'z3' }));
    expect(madeDiff(diffPlans(plan, next)).parts.changed.map((r) => r.id)).toEqual([ids.fuse]);
  });

  it('compares tables alone, and then says nothing of the head', () => {
    const { zones, runs: ways, parts, wires } = plan;
    expect(isSame(diffPlans({ zones, runs: ways, parts, wires }, plan))).toBe(true);
  });

  it('of a revision compares what it keeps of the head, and nothing that it does not keep', () => {
    const { zones, runs: ways, parts, wires, vehicle, thresholds } = plan;
    let next = proven(plan, setHead(plan, { title: 'Other', note: 'New' }));
    next = proven(next, setVehicle(next, { batteryAh: 90, engineOffH: 2 }));
    next = proven(next, setThreshold(next, 'a.b', 0.05));
    const was = { zones, runs: ways, parts, wires, vehicle, thresholds };
    const fields = [
      { field: 'thresholds.a.b', before: undefined, after: 0.05 },
      { field: 'vehicle.batteryAh', before: 60, after: 90 },
      { field: 'vehicle.engineOffH', before: undefined, after: 2 },
    ];
    expect(diffPlans(was, next).head.toSorted((a, b) => (a.field < b.field ? -1 : 1))).toEqual(fields);
    expect(madeDiff(diffPlans(was, next)).head).toHaveLength(3);
    // Of whole plans what figures rest on counts at the vehicle, title and note do not.
    expect(
      madeDiff(diffPlans(plan, next))
        .head.map((f) => f.field)
        .sort(),
    ).toEqual(fields.map((f) => f.field));
    expect(diffPlans({ zones, runs: ways, parts, wires, vehicle }, next).head.map((f) => f.field)).toEqual(['vehicle.batteryAh', 'vehicle.engineOffH']);
  });

  it('of a plan with itself, or with its copy, is nothing', () => {
    fc.assert(
      fc.property(nonsensePlan, (any) => {
        expect(isSame(diffPlans(any, any))).toBe(true);
        expect(isSame(diffPlans(any, structuredClone(any)))).toBe(true);
      }),
      { numRuns: runs(60) },
    );
  });

  it('after edits is exactly what they did, and the other way round the mirror of it', () => {
    const step = fc.tuple(fc.nat(4), fc.nat(30), fc.nat(9));
    fc.assert(
      fc.property(nonsensePlan, fc.array(step, { maxLength: 8 }), (start, steps) => {
        const touched = { removed: new Set<Id>(), set: new Set<Id>(), added: new Set<Id>() };
        let now = start;
        for (const [kind, at, value] of steps) now = done(now, stepEdit(now, kind, at, value, touched));
        const diff = diffPlans(start, now);
        for (const id of touched.removed) touched.set.delete(id);
        const before = (id: Id): boolean => Object.hasOwn(start.parts, id);
        expect(new Set(diff.parts.added.map((p) => p.id))).toEqual(new Set([...touched.added].filter((id) => !touched.removed.has(id))));
        expect(new Set(diff.parts.removed.map((p) => p.id))).toEqual(new Set([...touched.removed].filter(before)));
        expect(new Set(diff.parts.changed.map((p) => p.id))).toEqual(
          new Set([...touched.set].filter((id) => before(id) && start.parts[id]?.note !== now.parts[id]?.note)),
        );
        const back = diffPlans(now, start);
        expect(back.parts.added).toEqual(diff.parts.removed);
        expect(back.wires.removed).toEqual(diff.wires.added);
        expect(back.parts.changed.map((r) => r.fields.map((f) => [f.field, f.after, f.before]))).toEqual(
          diff.parts.changed.map((r) => r.fields.map((f) => [f.field, f.before, f.after])),
        );
      }),
      { numRuns: runs(60) },
    );
  });
});

function done(now: Plan, edit: Edit | null): Plan {
  if (!edit) return now;
  const next = apply(now, edit);
  if (!next.ok) throw new Error(next.reason);
  return next.plan;
}

function stepEdit(now: Plan, kind: number, at: number, value: number, touched: Record<'removed' | 'set' | 'added', Set<Id>>): Edit | null {
  const all = Object.keys(now.parts);
  const id = all[at % Math.max(1, all.length)];
  if (kind === 0 || id === undefined) {
    const made = addPart(now, { kind: 'resistor', zone: Object.keys(now.zones)[0]!, x: 0, y: 0 });
    touched.added.add(made.id);
    return made.edit;
  }
  if (kind === 1) {
    touched.removed.add(id);
    return removeItems(now, [id]);
  }
  touched.set.add(id);
  return setPart(now, id, { note: `note ${value}` });
}
