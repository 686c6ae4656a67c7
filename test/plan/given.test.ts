import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { alternativeTo } from '../../src/plan/alternatives.ts';
import { apply, invert } from '../../src/plan/apply.ts';
import * as edits from '../../src/plan/edits.ts';
import { counted, isOthers, keepCount, readyToCopy } from '../../src/plan/given.ts';
import { itemNumbers, wireNumbers } from '../../src/plan/numbers.ts';
import type { Edit, Id, Plan } from '../../src/plan/types.ts';
import { runs } from '../runs.ts';
import { smallPlan } from './laws.ts';
import { letterOf, stepOf } from './steps.ts';

const taken = (plan: Plan, edit: Edit): Plan => {
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.reason);
  return keepCount(done.plan, plan, letterOf);
};
const added = (plan: Plan): { plan: Plan; id: Id } => {
  const parts = Object.values(plan.parts).filter((p) => p.kind !== 'battery');
  const { edit, id } = edits.addWire(plan, { part: parts[0]!.id, terminal: '2' }, { part: parts[1]!.id, terminal: '2' });
  return { plan: taken(plan, edit), id };
};
const two = (plan: Plan): [Plan, Plan] => {
  const a = readyToCopy(plan, letterOf);
  return [a, alternativeTo(a, [a], 'plan-b') as Plan];
};
const numberOf = (plan: Plan, id: Id) => wireNumbers(plan).standing.get(id);

describe('numbers of two wirings', () => {
  const { plan, ids } = smallPlan();

  it('go on over both: what is new in one is not what is new in the other', () => {
    const [a, b] = two(plan);
    const inB = added(b);
    expect(numberOf(inB.plan, inB.id)).toBe(3);
    // A is opened next, then B again.
    const inA = added(counted(a, letterOf, [inB.plan]));
    expect(numberOf(inA.plan, inA.id)).toBe(4);
    const again = added(counted(inB.plan, letterOf, [inA.plan]));
    expect(numberOf(again.plan, again.id)).toBe(5);
    expect(numberOf(again.plan, inB.id)).toBe(3);
    const part = edits.addPart(inA.plan, { kind: 'resistor', zone: 'z2', x: 0, y: 0 });
    const withR2 = taken(inA.plan, part.edit);
    const other = edits.addPart(b, { kind: 'resistor', zone: 'z2', x: 0, y: 0 });
    expect(itemNumbers(taken(counted(b, letterOf, [withR2]), other.edit), letterOf).standing.get(other.id)).toBe(3);
  });

  it('stay spent when what had them is removed, or its wiring is deleted', () => {
    const [a, b] = two(plan);
    const inB = added(b);
    const gone = taken(inB.plan, edits.removeItems(inB.plan, [], [inB.id]));
    const inA = added(counted(a, letterOf, [gone]));
    expect(numberOf(inA.plan, inA.id)).toBe(4);
    const alone = added(inA.plan);
    expect(numberOf(alone.plan, alone.id)).toBe(5);
    expect(isOthers(inA.plan, inA.id, 3)).toBe(true);
    expect(isOthers(inA.plan, inA.id, 4)).toBe(false);
  });

  it('that a person typed count too', () => {
    const [a, b] = two(plan);
    const typed = taken(b, edits.setWire(b, ids.loadWire, { number: 3 }));
    const inA = added(counted(a, letterOf, [typed]));
    expect(numberOf(inA.plan, inA.id)).toBe(4);
    expect(numberOf(inA.plan, ids.loadWire)).toBe(2);
  });

  it('of wirings that were drawn apart stay as they are; what is new comes after both', () => {
    // Files of an edition that kept no count: both have a wire 3.
    const b = alternativeTo(plan, [plan], 'plan-b') as Plan;
    const [inA, inB] = [added(plan), added(b)];
    expect([numberOf(inA.plan, inA.id), numberOf(inB.plan, inB.id)]).toEqual([3, 3]);
    const a = counted(inA.plan, letterOf, [inB.plan]);
    expect(numberOf(a, inA.id)).toBe(3);
    const next = added(a);
    const here = counted(inB.plan, letterOf, [next.plan]);
    expect(numberOf(here, inB.id)).toBe(3);
    expect(numberOf(added(here).plan, added(here).id)).toBe(5);
  });

  it('undo takes none back that another wiring has, and no id either', () => {
    const { edit, id } = edits.addWire(plan, { part: ids.fuse, terminal: '1' }, { part: ids.resistor, terminal: '2' });
    const [a, b] = two(taken(plan, edit));
    const undone = taken(a, invert(edit));
    const next = added(undone);
    expect(next.id).not.toBe(id);
    expect([numberOf(b, id), numberOf(next.plan, next.id)]).toEqual([3, 4]);
    expect(numberOf(taken(undone, edit), id)).toBe(3);
  });

  it('a plan alone is left as it is, and one without anything new is the same object', () => {
    expect(taken(plan, edits.setHead(plan, { title: 'x' })).given).toBeUndefined();
    expect(added(plan).plan.given).toBeUndefined();
    const [a, b] = two(plan);
    expect(counted(a, letterOf, [b])).toBe(a);
    expect(readyToCopy(a, letterOf)).toBe(a);
  });

  it('never meet, whatever is added, removed, undone, revised, copied and taken through files', () => {
    const step = fc.tuple(fc.nat(3), fc.nat(7), fc.nat(20), fc.nat(20));
    fc.assert(
      fc.property(fc.array(step, { minLength: 8, maxLength: 40 }), (steps) => {
        const wirings: { plan: Plan; past: readonly Edit[] }[] = [{ plan: smallPlan().plan, past: [] }];
        const had = new Map<string, Id>();
        for (const [which, kind, a, b] of steps) {
          const n = which % wirings.length;
          const others = wirings.flatMap((w, i) => (i === n ? [] : [w.plan]));
          const opened = others.length > 0 ? counted(wirings[n]!.plan, letterOf, others) : wirings[n]!.plan;
          const { past } = wirings[n]!;
          const edit = kind === 5 ? past.at(-1) && invert(past.at(-1)!) : stepOf(opened, kind, a, b);
          const plan = edit ? taken(opened, edit) : opened;
          wirings[n] = { plan, past: kind === 5 ? past.slice(0, -1) : edit ? [...past, edit] : past };
          // In one wiring, what was undone was never there.
          if (kind === 5 && wirings.length === 1) had.clear();
          if (kind === 6 && wirings.length < 4) {
            const ready = readyToCopy(plan, letterOf);
            const copy = alternativeTo(
              ready,
              wirings.map((w) => w.plan),
              `plan-${wirings.length}`,
            ) as Plan;
            wirings[n] = { ...wirings[n]!, plan: ready };
            wirings.push({ plan: copy, past: [] });
          }
          if (kind === 7) {
            const read = readPlan(writePlan(plan));
            if (!read.ok) throw new Error(JSON.stringify(read.problems));
            expect(read.plan).toEqual(plan);
          }
          const fresh = Object.keys(plan.wires).filter((id) => kind === 1 && !opened.wires[id]);
          for (const id of fresh) for (const other of others) expect(Object.keys(other.wires)).not.toContain(id);
          for (const w of wirings) {
            const labels = [
              ...[...wireNumbers(w.plan).standing].map(([id, number]) => [`W${number}`, id] as const),
              ...[...itemNumbers(w.plan, letterOf).standing].map(([id, number]) => [`${letterOf(w.plan.parts[id]!.kind)}${number}`, id] as const),
            ];
            for (const [label, id] of labels) {
              expect(had.get(label) ?? id, label).toBe(id);
              had.set(label, id);
            }
          }
        }
      }),
      { numRuns: runs(80) },
    );
  });
});

describe('in a file', () => {
  const [a] = two(smallPlan().plan);

  it('the count is kept, and a plan without it opens as before', () => {
    const read = readPlan(writePlan(a));
    expect(read.ok && read.plan).toStrictEqual(a);
    expect(read.ok && read.plan.given?.wires).toEqual({ 1: 'w11', 2: 'w12' });
    expect(writePlan(smallPlan().plan)).not.toContain('given');
  });

  it.each([
    ['no number', { wires: { x: 'w1' }, items: {}, serial: 0 }],
    ['zero', { wires: { 0: 'w1' }, items: {}, serial: 0 }],
    ['no letter', { wires: {}, items: { f: { 1: 'p1' } }, serial: 0 }],
    ['no id', { wires: { 1: 'a.b' }, items: {}, serial: 0 }],
  ])('%s is refused', (_, given) => {
    expect(readPlan(writePlan({ ...a, given: given as unknown as NonNullable<Plan['given']> })).ok).toBe(false);
  });

  it('a number that stands twice is mended with one that no wiring has', () => {
    const ids = Object.keys(a.wires);
    const wires = Object.fromEntries(Object.values(a.wires).map((w) => [w.id, { ...w, number: 1 }]));
    const read = readPlan(writePlan({ ...a, wires, given: { wires: { 1: ids[0]!, 2: 'w99', 3: 'w98' }, items: {}, serial: 0 } }));
    expect(read.ok && Object.values(read.plan.wires).map((w) => w.number)).toEqual([1, 4]);
  });
});
