import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { apply } from '../../src/plan/apply.ts';
import { Draft } from '../../src/plan/draft.ts';
import * as edits from '../../src/plan/edits.ts';
import { beyondLimits } from '../../src/plan/limitsCheck.ts';
import { itemNumbers, wireNumbers } from '../../src/plan/numbers.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';
import { runs } from '../runs.ts';
import { proven, smallPlan } from './laws.ts';
import { letterOf, revise, stepOf } from './steps.ts';

describe('numbers', () => {
  it('of wires and parts stay when others go, and are not given again', () => {
    const { plan, ids } = smallPlan();
    expect([...wireNumbers(plan).standing.values()]).toEqual([1, 2]);
    const less = proven(plan, edits.removeItems(plan, [], [ids.feedWire]));
    expect(wireNumbers(less).standing.get(ids.loadWire)).toBe(2);
    const again = edits.addWire(less, { part: ids.battery, terminal: '+' }, { part: ids.fuse, terminal: '1' });
    expect(wireNumbers(proven(less, again.edit)).standing.get(again.id)).toBe(3);

    const other = edits.addPart(plan, { kind: 'resistor', zone: 'z2', x: 0, y: 0 });
    const two = proven(plan, other.edit);
    const one = proven(two, edits.removeItems(two, [ids.resistor]));
    expect(itemNumbers(one, letterOf).standing.get(other.id)).toBe(2);
    const next = edits.addPart(one, { kind: 'resistor', zone: 'z2', x: 0, y: 0 });
    expect(itemNumbers(proven(one, next.edit), letterOf).standing.get(next.id)).toBe(3);
  });

  it('stay with the others when a part becomes one of another letter; its own old one is spent', () => {
    const { plan, ids } = smallPlan();
    const more = edits.addPart(plan, { kind: 'blade-fuse', zone: 'z2', x: 0, y: 0 });
    let now = proven(plan, more.edit);
    const row = now.parts[ids.fuse]!;
    const label = 'Replace';
    const asRelay = new Draft(now);
    asRelay.setPart({ ...row, kind: 'relay' });
    now = proven(now, asRelay.edit('part.replace', label));
    expect(itemNumbers(now, letterOf).standing.get(more.id)).toBe(2);
    const third = edits.addPart(now, { kind: 'blade-fuse', zone: 'z2', x: 0, y: 0 });
    expect(itemNumbers(proven(now, third.edit), letterOf).standing.get(third.id)).toBe(3);
  });

  it('are never given twice, whatever is added, removed, revised and taken through a file', () => {
    const step = fc.tuple(fc.nat(5), fc.nat(20), fc.nat(20));
    fc.assert(
      fc.property(fc.array(step, { minLength: 5, maxLength: 30 }), (steps) => {
        let plan = smallPlan().plan;
        const wires = new Map<number, string>();
        const items = new Map<string, string>();
        for (const [kind, a, b] of steps) {
          const edit = stepOf(plan, kind, a, b);
          if (edit) plan = taken(plan, edit);
          if (kind === 5) {
            const read = readPlan(writePlan(plan));
            if (!read.ok) throw new Error(JSON.stringify(read.problems));
            expect(read.plan).toEqual(plan);
            plan = read.plan;
          }
          for (const [id, n] of wireNumbers(plan).standing) expect(wires.get(n) ?? id, `W${n}`).toBe(id);
          for (const [id, n] of wireNumbers(plan).standing) wires.set(n, id);
          for (const [id, n] of itemNumbers(plan, letterOf).standing) {
            const label = `${letterOf(plan.parts[id]!.kind)}${n}`;
            expect(items.get(label) ?? id, label).toBe(id);
            items.set(label, id);
          }
        }
      }),
      { numRuns: runs(80) },
    );
  });
});

function taken(plan: Plan, edit: Edit): Plan {
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
}

describe('a revision', () => {
  it('keeps the filled rows, fixes the numbers, and undo takes all of it back', () => {
    const { plan, ids } = smallPlan();
    const wire = plan.wires[ids.loadWire]!;
    const filled = { ...plan, wires: { ...plan.wires, [wire.id]: { ...wire, number: 2, areaMm2: 0.75 } } };
    const next = proven(plan, revise(plan, filled));
    const kept = next.revisions?.v1;
    expect(kept).toMatchObject({ id: 'v1', number: 1, date: '2025-03-04', note: 'First build' });
    expect(kept?.was?.wires[ids.loadWire]).toMatchObject({ number: 2, areaMm2: 0.75 });
    // Only the number is fixed in the plan: the size stays automatic.
    expect(next.wires[ids.loadWire]).toMatchObject({ number: 2 });
    expect(next.wires[ids.loadWire]?.areaMm2).toBeUndefined();
    expect(next.parts[ids.fuse]?.item).toBe(1);
    expect(beyondLimits(revise(plan, filled))).toBeNull();
  });

  it('keeps the facts of the vehicle and the plan’s own limits, also in a file', () => {
    const { plan } = smallPlan();
    let own = proven(plan, edits.setThreshold(plan, 'drop.feed', 0.02));
    own = proven(own, edits.setVehicle(own, { batteryAh: 90, supplyV: { START: { low: 6, typical: 8, high: 10 } } }));
    const next = proven(own, revise(own));
    expect(next.revisions?.v1?.was).toMatchObject({ vehicle: own.vehicle, thresholds: { 'drop.feed': 0.02 } });
    const read = readPlan(writePlan(next));
    expect(read.ok && read.plan).toEqual(next);
  });

  it('of an older edition, without them, opens as it is', () => {
    const { plan } = smallPlan();
    const next = proven(plan, revise(plan));
    const { vehicle: _, thresholds: __, ...was } = next.revisions!.v1!.was!;
    const old = { ...next, revisions: { v1: { ...next.revisions!.v1!, was } } };
    expect(writePlan(old)).not.toContain('"was":{"vehicle"');
    const read = readPlan(writePlan(old));
    expect(read).toStrictEqual({ ok: true, plan: old, notes: [] });
    const wrong = { ...old, revisions: { v1: { ...old.revisions.v1, was: { ...was, thresholds: { x: 'much' } } } } } as unknown as Plan;
    expect(readPlan(writePlan(wrong)).ok).toBe(false);
  });

  it('never has the number of an earlier one, not even of one that was let go', () => {
    const { plan } = smallPlan();
    let now = proven(plan, revise(plan));
    now = proven(now, revise(now));
    now = proven(now, edits.thinRevision(now, 'v2'));
    expect(now.revisions?.v2).toEqual({ id: 'v2', number: 2, date: '2025-03-04', note: 'First build' });
    now = proven(now, revise(now));
    expect(edits.revisionsOf(now).map((r) => r.number)).toEqual([1, 2, 3]);
    const read = readPlan(writePlan(now));
    expect(read.ok && read.plan).toEqual(now);
  });

  it('that would not fit is refused with the way out, and a plan without any is read as before', () => {
    const { plan } = smallPlan();
    const long = 'x'.repeat(1_990_000);
    const stuffed = { ...plan, revisions: { v1: { id: 'v1', number: 1, date: '2025-01-01', note: long, was: { zones: {}, runs: {}, parts: {}, wires: {} } } } };
    const refused = edits.makeRevision(stuffed, stuffed, letterOf, { date: '2025-03-04', note: 'y'.repeat(20_000) });
    expect(refused.ok ? '' : refused.reason).toContain('there is room for 2 MB: let go of what an early one looked like');
    expect(beyondLimits({ intent: 'x', label: 'x', changes: [{ table: 'revisions', id: 'v1', before: null, after: stuffed.revisions.v1 }] })).toContain(
      'longer than 500',
    );
    const old = readPlan(writePlan(plan));
    expect(old.ok && 'revisions' in old.plan).toBe(false);
  });
});
