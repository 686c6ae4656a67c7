import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { alignParts, distributeParts, type Sizes } from '../../src/plan/arrange.ts';
import { duplicateWired } from '../../src/plan/copy.ts';
import { addPart, setPart, setWire } from '../../src/plan/edits.ts';
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

  // 40 by 20 at 20, 0; 80 by 40 at 100, 100; 60 by 20 at 300, 260: together from 20 to 360 and from 0 to 280, middles at 190 and 140.
  const three = () => {
    const made = row([
      [20, 0],
      [100, 100],
      [300, 260],
    ]);
    const [a, b, c] = made.ids as [string, string, string];
    const sizes = new Map([
      [a, { w: 40, h: 20 }],
      [b, { w: 80, h: 40 }],
      [c, { w: 60, h: 20 }],
    ]);
    return { ...made, sizes };
  };
  const [xs, ys] = [
    [20, 100, 300],
    [0, 100, 260],
  ];

  it.each([
    ['left', [20, 20, 20], ys],
    ['right', [320, 280, 300], ys],
    ['centre', [170, 150, 160], ys],
    ['top', xs, [0, 0, 0]],
    ['bottom', xs, [260, 240, 260]],
    ['middle', xs, [130, 120, 130]],
  ] as const)('%s: each part stands where it was worked out by hand', (line, x, y) => {
    const { plan, ids, sizes } = three();
    const done = alignParts(plan, sizes, line);
    if (!done.ok) throw new Error(done.reason);
    const next = proven(plan, done.edit);
    expect(ids.map((id) => next.parts[id]?.x)).toEqual(x);
    expect(ids.map((id) => next.parts[id]?.y)).toEqual(y);
    expect(done.edit.label).toMatch(/^Line up .* of 3 parts$/);
    // In whichever order they were chosen.
    const other = alignParts(plan, new Map([...sizes].reverse()), line);
    expect(other.ok && proven(plan, other.edit)).toEqual(next);
    expect(alignParts(next, sizes, line)).toEqual({ ok: false, reason: 'They already lie like that' });
  });

  it.each([
    // From 0 to 110: bodies of 40 and 60 in the middle stand at 35 and 25, on the grid at 40 and 30.
    ['centre', 40, 30],
    ['right', 70, 50],
    ['left', 0, 0],
  ] as const)('%s comes to the nearest grid step', (line, first, second) => {
    const { plan, ids } = row([
      [0, 0],
      [50, 100],
    ]);
    const sizes = new Map(ids.map((id, i) => [id, { w: i === 0 ? 40 : 60, h: 20 }]));
    const done = alignParts(plan, sizes, line);
    expect(done.ok && ids.map((id) => proven(plan, done.edit).parts[id]?.x)).toEqual([first, second]);
  });

  it('sideways goes zone by zone, up and down over all zones', () => {
    const { plan: one, ids } = row([
      [20, 0],
      [100, 100],
    ]);
    let plan = one;
    for (const x of [30, 200]) {
      const { edit, id } = addPart(plan, { kind: 'resistor', zone: 'z3', x, y: x + 200 });
      plan = proven(plan, edit);
      ids.push(id);
    }
    const sizes = new Map(ids.map((id) => [id, { w: 40, h: 20 }]));
    const at = (line: Parameters<typeof alignParts>[2], of: 'x' | 'y') => {
      const done = alignParts(plan, sizes, line);
      if (!done.ok) throw new Error(done.reason);
      const next = proven(plan, done.edit);
      expect(ids.map((id) => next.parts[id]?.zone)).toEqual(['z2', 'z2', 'z3', 'z3']);
      return ids.map((id) => next.parts[id]?.[of]);
    };
    // z2 from 20 to 140, z3 from 30 to 240; down from 0 to 420 over both.
    expect(at('right', 'x')).toEqual([100, 100, 200, 200]);
    expect(at('centre', 'x')).toEqual([60, 60, 120, 120]);
    expect(at('bottom', 'y')).toEqual([400, 400, 400, 400]);
    expect(at('middle', 'y')).toEqual([200, 200, 200, 200]);
    expect(alignParts(plan, new Map([...sizes].slice(1, 3)), 'left')).toMatchObject({ ok: false, reason: expect.stringContaining('one zone') });
  });

  it('moves fitted parts on the drawing too, and leaves all else of them as it was fitted', () => {
    const { plan: bare, ids, sizes } = three();
    const plan = proven(bare, setPart(bare, ids[1] as string, { fitted: true, note: 'behind the trim' }));
    const done = alignParts(plan, sizes, 'left');
    if (!done.ok) throw new Error(done.reason);
    const next = proven(plan, done.edit);
    expect(next.parts[ids[1] as string]).toEqual({ ...plan.parts[ids[1] as string], x: 20 });
    expect(next.wires).toBe(plan.wires);
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

  it.each([
    // 20 to 360 holds bodies of 180: two gaps of 80. 0 to 280 holds bodies of 80: two gaps of 100.
    ['across', [20, 140, 300], [0, 100, 260]],
    ['down', [20, 100, 300], [0, 120, 260]],
  ] as const)('%s: bodies of unlike size get like gaps', (way, x, y) => {
    const { plan, ids } = row([
      [20, 0],
      [100, 100],
      [300, 260],
    ]);
    const [a, b, c] = ids as [string, string, string];
    const sizes = new Map([
      [c, { w: 60, h: 20 }],
      [a, { w: 40, h: 20 }],
      [b, { w: 80, h: 40 }],
    ]);
    const done = distributeParts(plan, sizes, way);
    if (!done.ok) throw new Error(done.reason);
    const next = proven(plan, done.edit);
    expect(ids.map((id) => next.parts[id]?.x)).toEqual(x);
    expect(ids.map((id) => next.parts[id]?.y)).toEqual(y);
    expect(distributeParts(next, sizes, way)).toEqual({ ok: false, reason: 'They already lie like that' });
  });

  it('comes to the nearest grid step, and the outer ones stay', () => {
    const { plan, sizes, ids } = row([
      [0, 0],
      [50, 40],
      [100, 80],
      [250, 120],
    ]);
    const done = distributeParts(plan, sizes, 'across');
    // 0 to 290 holds bodies of 160: gaps of 43.3, so 83.3 and 166.7.
    expect(done.ok && ids.map((id) => proven(plan, done.edit).parts[id]?.x)).toEqual([0, 80, 170, 250]);
  });

  it('sideways goes zone by zone; fitted parts move on the drawing like others', () => {
    const { plan: one, ids } = row([
      [0, 0],
      [50, 40],
      [200, 80],
    ]);
    const { edit, id } = addPart(one, { kind: 'resistor', zone: 'z3', x: 400, y: 0 });
    const two = proven(one, edit);
    const plan = proven(two, setPart(two, ids[1] as string, { fitted: true }));
    const sizes = new Map([...ids, id].map((p) => [p, { w: 40, h: 20 }]));
    const done = distributeParts(plan, sizes, 'across');
    if (!done.ok) throw new Error(done.reason);
    const next = proven(plan, done.edit);
    expect([...ids, id].map((p) => next.parts[p]?.x)).toEqual([0, 100, 200, 400]);
    expect(next.parts[ids[1] as string]?.fitted).toBe(true);
  });

  it('is refused where a body would come to lie on another', () => {
    const { plan, sizes } = row([
      [0, 0],
      [40, 10],
      [60, 40],
    ]);
    // 0 to 100 holds bodies of 120: gaps of −10, so the middle one would go to 30 and lie on the first, which ends at 40.
    expect(distributeParts(plan, sizes, 'across')).toMatchObject({ ok: false, reason: expect.stringContaining('would lie on') });
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
