import { expect } from 'vitest';
import { apply, invert } from '../../src/plan/apply.ts';
import { addPart, addWire } from '../../src/plan/edits.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import type { Edit, Id, Plan } from '../../src/plan/types.ts';

export function deepFreeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const inner of Object.values(value)) deepFreeze(inner);
  }
  return value;
}

/** Applies an edit and proves its laws: input untouched, inverse leads back, JSON carries it. Returns the new plan. */
export function proven(plan: Plan, edit: Edit): Plan {
  deepFreeze(plan);
  deepFreeze(edit);
  const done = apply(plan, edit);
  if (!done.ok) throw new Error(`refused: ${done.reason}`);
  const back = apply(done.plan, invert(edit));
  if (!back.ok) throw new Error(`inverse refused: ${back.reason}`);
  expect(back.plan).toStrictEqual(plan);
  expect(Object.keys(back.plan.parts)).toStrictEqual(Object.keys(plan.parts));
  expect(invert(invert(edit))).toStrictEqual(edit);
  const carried = JSON.parse(JSON.stringify(edit)) as Edit;
  expect(carried).toStrictEqual(edit);
  const again = apply(plan, carried);
  expect(again.ok && again.plan).toStrictEqual(done.plan);
  for (const table of ['parts', 'wires', 'zones', 'runs'] as const) {
    if (!edit.changes.some((c) => c.table === table)) expect(done.plan[table]).toBe(plan[table]);
  }
  return done.plan;
}

export function reasonFor(plan: Plan, edit: Edit): string {
  const done = apply(plan, edit);
  if (done.ok) throw new Error('not refused');
  return done.reason;
}

/** Battery (engine bay) - wire - fuse (behind the radio) - wire - resistor (under the seat). */
export function smallPlan(): { readonly plan: Plan; readonly ids: Readonly<Record<'battery' | 'fuse' | 'resistor' | 'feedWire' | 'loadWire', Id>> } {
  let plan = emptyPlan('Small', {}, 'small');
  const take = <T extends { readonly edit: Edit; readonly id: Id }>(made: T): Id => {
    plan = proven(plan, made.edit);
    return made.id;
  };
  const battery = take(addPart(plan, { kind: 'battery', zone: 'z1', x: 20, y: 40, owner: 'vehicle' }));
  const fuse = take(addPart(plan, { kind: 'blade-fuse', zone: 'z2', x: 20, y: 40, name: 'Main fuse', settings: { ratingA: 5 } }));
  const resistor = take(addPart(plan, { kind: 'resistor', zone: 'z3', x: 20, y: 40 }));
  const feedWire = take(addWire(plan, { part: battery, terminal: '+' }, { part: fuse, terminal: '1' }, { areaMm2: 1.5, colour: 'RD', lengthM: 2 }));
  const loadWire = take(addWire(plan, { part: fuse, terminal: '2' }, { part: resistor, terminal: '1' }));
  return { plan, ids: { battery, fuse, resistor, feedWire, loadWire } };
}
