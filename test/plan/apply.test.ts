import { describe, expect, it } from 'vitest';
import { apply, merge, sameRow, sameTarget } from '../../src/plan/apply.ts';
import { addPart, addWire, movePart, removeItems, setHead, setSetting, setWire, turnParts } from '../../src/plan/edits.ts';
import type { Edit } from '../../src/plan/types.ts';
import { proven, reasonFor, smallPlan } from './laws.ts';

describe('apply', () => {
  it('refuses an edit made for another state of the row', () => {
    const { plan, ids } = smallPlan();
    const late = setSetting(plan, ids.fuse, 'ratingA', 10);
    const moved = proven(plan, movePart(plan, ids.fuse, { x: 200, y: 0 }));
    expect(reasonFor(moved, late)).toBe(`part ${ids.fuse} has changed since this edit was made`);
  });

  it('refuses a second row under an id, and a head that has moved on', () => {
    const { plan } = smallPlan();
    const { edit } = addPart(plan, { kind: 'splice', zone: 'z1', x: 0, y: 0 });
    expect(reasonFor(proven(plan, edit), edit)).toMatch(/already there/);
    const title = setHead(plan, { title: 'B' });
    expect(reasonFor(proven(plan, setHead(plan, { title: 'C' })), title)).toMatch(/have changed/);
  });

  it('refuses wires to nothing and to themselves', () => {
    const { plan, ids } = smallPlan();
    expect(reasonFor(plan, addWire(plan, { part: ids.fuse, terminal: '1' }, { part: 'p99', terminal: '1' }).edit)).toContain('not on the plan (p99)');
    expect(reasonFor(plan, addWire(plan, { part: ids.fuse, terminal: '1' }, { part: ids.fuse, terminal: '1' }).edit)).toBe(
      'a wire cannot join a terminal to itself',
    );
    const stranding: Edit = { intent: 'x', label: 'x', changes: [{ table: 'parts', id: ids.fuse, before: plan.parts[ids.fuse] ?? null, after: null }] };
    expect(reasonFor(plan, stranding)).toContain(`would end on a part that is not on the plan (${ids.fuse})`);
  });

  it('refuses a part in no zone and an id that was not taken from the numbering', () => {
    const { plan } = smallPlan();
    expect(reasonFor(plan, addPart(plan, { kind: 'splice', zone: 'z77', x: 0, y: 0 }).edit)).toContain('zone');
    const { edit } = addPart(plan, { kind: 'splice', zone: 'z1', x: 0, y: 0 });
    const partOnly = { ...edit, changes: edit.changes.filter((c) => c.table !== 'head') };
    expect(reasonFor(plan, partOnly)).toContain('numbering');
  });

  it('a refused edit leaves the plan as it was', () => {
    const { plan, ids } = smallPlan();
    const text = JSON.stringify(plan);
    apply(plan, addWire(plan, { part: ids.fuse, terminal: '1' }, { part: 'p99', terminal: '1' }).edit);
    expect(JSON.stringify(plan)).toBe(text);
  });

  it('rows stand in the order of their ids however they came about', () => {
    const { plan, ids } = smallPlan();
    const less = proven(plan, removeItems(plan, [ids.battery]));
    const done = apply(less, {
      ...removeItems(plan, [ids.battery]),
      changes: [...removeItems(plan, [ids.battery]).changes].map((c) => ({ ...c, before: c.after, after: c.before })) as Edit['changes'],
    });
    expect(done.ok && Object.keys(done.plan.parts)).toStrictEqual(Object.keys(plan.parts));
  });
});

describe('merge', () => {
  it('a drag of many steps is one edit from first to last place', () => {
    const { plan, ids } = smallPlan();
    const first = movePart(plan, ids.fuse, { x: 50, y: 0 });
    const between = proven(plan, first);
    const second = movePart(between, ids.fuse, { x: 90, y: 30, zone: 'z3' });
    expect(sameTarget(first, second)).toBe(true);
    const both = merge(first, second);
    expect(both.changes).toHaveLength(1);
    expect(proven(plan, both)).toStrictEqual(proven(between, second));
  });

  it('there and back leaves nothing', () => {
    const { plan, ids } = smallPlan();
    const out = turnParts(plan, [ids.fuse], 1);
    const back = turnParts(proven(plan, out), [ids.fuse], -1);
    expect(merge(out, back).changes).toStrictEqual([]);
  });

  it('two settings of one part, or two parts, are different targets', () => {
    const { plan, ids } = smallPlan();
    const rating = setSetting(plan, ids.fuse, 'ratingA', 10);
    expect(sameTarget(rating, setSetting(plan, ids.fuse, 'ratingA', 15))).toBe(true);
    expect(sameTarget(rating, setSetting(plan, ids.fuse, 'voltClass', '58'))).toBe(false);
    expect(sameTarget(movePart(plan, ids.fuse, { x: 50, y: 0 }), movePart(plan, ids.resistor, { x: 50, y: 0 }))).toBe(false);
    expect(sameTarget(setWire(plan, ids.feedWire, { areaMm2: 2.5 }), setWire(plan, ids.feedWire, { colour: 'BU' }))).toBe(false);
  });
});

describe('sameRow', () => {
  it('compares by value, and takes undefined for absent', () => {
    expect(sameRow({ a: [1, { b: 2 }] }, { a: [1, { b: 2 }] })).toBe(true);
    expect(sameRow({ a: 1 }, { a: 1, b: undefined })).toBe(true);
    expect(sameRow({ a: 1, b: undefined }, { a: 1 })).toBe(true);
    expect(sameRow({ a: 1 }, { a: 2 })).toBe(false);
    expect(sameRow([1], { 0: 1 })).toBe(false);
    expect(sameRow({ a: 1 }, { a: 1, b: 1 })).toBe(false);
    expect(sameRow(null, {})).toBe(false);
    expect(sameRow([1, 2], [1])).toBe(false);
  });
});
