import { describe, expect, it } from 'vitest';
import { describeEdit } from '../../src/ledger/describe.ts';
import { apply } from '../../src/plan/apply.ts';
import { addPart, addWire, removeItems, setSetting, setVehicle, setWire } from '../../src/plan/edits.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';

const after = (plan: Plan, edit: Edit): Plan => {
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
};
const plain = (lines: readonly string[]) => lines.map((l) => l.replaceAll('\u00a0', ' '));

const first = addPart(emptyPlan('t', {}, 't'), { kind: 'blade-fuse', zone: 'z2', x: 20, y: 20, name: 'Main fuse' });
const one = after(emptyPlan('t', {}, 't'), first.edit);
const second = addPart(one, { kind: 'resistor', zone: 'z2', x: 20, y: 80 });
const two = after(one, second.edit);
const wire = addWire(two, { part: first.id, terminal: '2' }, { part: second.id, terminal: '1' });
const plan = after(two, wire.edit);

describe('a repair says what it would change', () => {
  it('names the setting with its unit, before and after', () => {
    const typed = after(plan, setSetting(plan, first.id, 'ratingA', 15));
    expect(plain(describeEdit(typed, setSetting(typed, first.id, 'ratingA', 5)))).toEqual([expect.stringMatching(/^Main fuse: .*15 A → 5 A\.$/)]);
    expect(plain(describeEdit(typed, setSetting(typed, first.id, 'ratingA', undefined)))[0]).toMatch(/15 A → automatic\.$/);
  });

  it('names new and gone parts and wires by their ends', () => {
    expect(describeEdit(plan, addPart(plan, { kind: 'splice', zone: 'z2', x: 0, y: 0 }).edit)).toEqual([expect.stringMatching(/^New part: /)]);
    const gone = describeEdit(plan, removeItems(plan, [first.id]));
    expect(gone).toEqual(expect.arrayContaining(['Main fuse goes.', 'The wire Main fuse, side towards the load – Resistor 1 goes.']));
  });

  it('names what changes about a wire', () => {
    expect(plain(describeEdit(plan, setWire(plan, wire.id, { areaMm2: 1.5, colour: 'RD' })))).toEqual([
      expect.stringMatching(/size automatic → 1.5 mm²\.$/),
      expect.stringMatching(/colour automatic → red\.$/),
    ]);
  });

  it('names a changed fact of the vehicle and says nothing of bookkeeping', () => {
    expect(describeEdit(plan, setVehicle(plan, { batteryAh: 90 }))).toEqual(['Vehicle, battery capacity: 60 Ah → 90 Ah.']);
    // A new part also moves the plan's serial on: no line for that.
    expect(describeEdit(plan, addPart(plan, { kind: 'splice', zone: 'z2', x: 0, y: 0 }).edit)).toHaveLength(1);
  });
});
