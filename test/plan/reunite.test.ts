import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apply } from '../../src/plan/apply.ts';
import { removeItems, setWire } from '../../src/plan/edits.ts';
import { reunited } from '../../src/plan/reunite.ts';
import type { Plan } from '../../src/plan/types.ts';
import { anyPlan } from '../properties/arbitraries.ts';
import { runs } from '../runs.ts';
import { smallPlan } from './laws.ts';

const { plan, ids } = smallPlan();
const edited = (make: (p: Plan) => Parameters<typeof apply>[1]): Plan => {
  const done = apply(plan, make(plan));
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
};

describe('a copy of a plan', () => {
  it('takes every row and table that says the same from the plan before', () => {
    const again = reunited(plan, structuredClone(plan));
    for (const name of ['zones', 'runs', 'parts', 'wires', 'vehicle'] as const) expect(again[name], name).toBe(plan[name]);
  });

  it('keeps what has changed as it came, and nothing that has gone', () => {
    const wire = Object.keys(plan.wires)[0]!;
    const after = structuredClone(edited((p) => setWire(p, wire, { lengthM: 7 })));
    const again = reunited(plan, after);
    expect(again).toEqual(after);
    expect(again.wires[wire]).toBe(after.wires[wire]);
    for (const id of Object.keys(plan.wires)) if (id !== wire) expect(again.wires[id]).toBe(plan.wires[id]);
    expect(again.parts).toBe(plan.parts);
    const less = structuredClone(edited((p) => removeItems(p, [ids.fuse])));
    expect(reunited(plan, less)).toEqual(less);
  });

  it('says what it said, whatever came before, in the same order', () => {
    fc.assert(
      fc.property(anyPlan, anyPlan, (one, other) => {
        expect(JSON.stringify(reunited(one, other))).toBe(JSON.stringify(other));
        const backwards = { ...one, parts: Object.fromEntries(Object.entries(one.parts).reverse()) };
        expect(JSON.stringify(reunited(one, structuredClone(backwards)))).toBe(JSON.stringify(backwards));
      }),
      { numRuns: runs(200) },
    );
  });
});
