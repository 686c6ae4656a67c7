import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alignParts, distributeParts, type Sizes } from '../../src/plan/arrange.ts';
import { duplicateWired } from '../../src/plan/copy.ts';
import { addPart, setWire } from '../../src/plan/edits.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import { replacePart, swapEnds } from '../../src/plan/swapReplace.ts';
import type { Plan } from '../../src/plan/types.ts';
import { runs } from '../runs.ts';
import { proven, smallPlan } from './laws.ts';

/** Parts at these places in one zone; bodies 40 by 20. */
function row(places: readonly (readonly [number, number])[]): { plan: Plan; sizes: Sizes; ids: string[] } {
  let plan = emptyPlan('Row', {}, 'row');
  const ids = places.map(([x, y]) => {
    const { edit, id } = addPart(plan, { kind: 'resistor', zone: 'z2', x, y });
    plan = proven(plan, edit);
    return id;
  });
  return { plan, ids, sizes: new Map(ids.map((id) => [id, { w: 40, h: 20 }])) };
}

describe('lining up', () => {
  it('brings edges and middles onto one line', () => {
    const { plan, ids } = row([
      [20, 0],
      [70, 100],
    ]);
    const sizes = new Map([
      [ids[0] as string, { w: 40, h: 20 }],
      [ids[1] as string, { w: 80, h: 20 }],
    ]);
    const xs = (line: Parameters<typeof alignParts>[2]) => {
      const done = alignParts(plan, sizes, line);
      if (!done.ok) throw new Error(done.reason);
      const next = proven(plan, done.edit);
      return ids.map((id) => next.parts[id]?.x);
    };
    expect(xs('left')).toStrictEqual([20, 20]);
    expect(xs('right')).toStrictEqual([110, 70]);
    expect(xs('centre')).toStrictEqual([70, 50]);
  });

  it('is refused where parts would lie on each other, and where there is nothing to do', () => {
    const { plan, sizes } = row([
      [0, 0],
      [100, 0],
    ]);
    expect(alignParts(plan, sizes, 'left')).toMatchObject({ ok: false, reason: expect.stringContaining('would lie on') });
    expect(alignParts(plan, sizes, 'top')).toMatchObject({ ok: false });
  });

  it('keeps every part in its zone and moves along one direction only', () => {
    const place = fc.tuple(fc.nat(40), fc.nat(40)).map(([x, y]) => [x * 10, y * 10] as const);
    const line = fc.constantFrom('left', 'right', 'centre', 'top', 'bottom', 'middle') as fc.Arbitrary<Parameters<typeof alignParts>[2]>;
    fc.assert(
      fc.property(fc.array(place, { minLength: 2, maxLength: 6 }), line, (places, how) => {
        const { plan, sizes, ids } = row(places);
        const done = alignParts(plan, sizes, how);
        if (!done.ok) return;
        const next = proven(plan, done.edit);
        const down = how === 'top' || how === 'bottom' || how === 'middle';
        const along = new Set(ids.map((id) => (down ? next.parts[id]?.y : next.parts[id]?.x)));
        expect(along.size).toBe(1);
        for (const id of ids) {
          expect(next.parts[id]?.zone).toBe('z2');
          expect(down ? next.parts[id]?.x : next.parts[id]?.y).toBe(down ? plan.parts[id]?.x : plan.parts[id]?.y);
        }
      }),
      { numRuns: runs(60) },
    );
  });
});

describe('spacing out', () => {
  it('makes gaps alike and leaves the outer two', () => {
    const { plan, sizes, ids } = row([
      [0, 0],
      [50, 0],
      [200, 0],
    ]);
    const done = distributeParts(plan, sizes, 'across');
    if (!done.ok) throw new Error(done.reason);
    const next = proven(plan, done.edit);
    // Bodies of 40 on 0 to 240: two gaps of 60.
    expect(ids.map((id) => next.parts[id]?.x)).toStrictEqual([0, 100, 200]);
    expect(distributeParts(plan, new Map([...sizes].slice(0, 2)), 'across').ok).toBe(false);
  });
});

describe('ends, kinds and seconds', () => {
  it('swaps ends and, done twice, is back', () => {
    const { plan, ids } = smallPlan();
    const once = proven(plan, swapEnds(plan, ids.fuse, '1', '2'));
    expect(once.wires[ids.feedWire]?.to).toStrictEqual({ part: ids.fuse, terminal: '2' });
    expect(once.wires[ids.loadWire]?.from).toStrictEqual({ part: ids.fuse, terminal: '1' });
    expect(once.parts[ids.fuse]?.turn).toBe(2);
    expect(proven(once, swapEnds(once, ids.fuse, '1', '2'))).toStrictEqual(plan);
  });

  it('replaces a part and keeps the wires that are named, with all they carry', () => {
    const { plan, ids } = smallPlan();
    const next = proven(plan, replacePart(plan, ids.fuse, 'master-switch', {}, { 1: '2' }));
    expect(next.parts[ids.fuse]).toMatchObject({ kind: 'master-switch', name: 'Main fuse', settings: {}, x: 20, y: 40 });
    expect(next.wires[ids.feedWire]).toStrictEqual({ ...plan.wires[ids.feedWire], to: { part: ids.fuse, terminal: '2' } });
    expect(next.wires[ids.loadWire]).toBeUndefined();
  });

  it('duplicates with wires to the outside, but not where the outside takes no more', () => {
    const small = smallPlan();
    const { ids } = small;
    const plan = proven(small.plan, setWire(small.plan, ids.feedWire, { number: 7, fitted: true }));
    const made = duplicateWired(plan, [ids.fuse], 0, 60, (end) => end.part !== ids.resistor);
    const next = proven(plan, made.edit);
    const fresh = Object.values(next.wires).filter((w) => !plan.wires[w.id]);
    expect(fresh).toHaveLength(1);
    expect(fresh[0]).toMatchObject({ from: { part: ids.battery, terminal: '+' }, to: { part: made.ids[0], terminal: '1' }, areaMm2: 1.5 });
    expect(fresh[0]?.number).toBeUndefined();
    expect(fresh[0]?.fitted).toBeUndefined();
    expect(made.left).toStrictEqual([ids.loadWire]);
  });
});
