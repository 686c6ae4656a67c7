import { describe, expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { apply } from '../../src/plan/apply.ts';
import { removeItems, setVehicle } from '../../src/plan/edits.ts';
import { proven, smallPlan } from '../plan/laws.ts';

describe('writing a plan', () => {
  it('reads back as the same plan', () => {
    let { plan } = smallPlan();
    plan = proven(plan, setVehicle(plan, { supplyV: { START: { low: 8, typical: 10, high: 11 } } }));
    expect(readPlan(writePlan(plan))).toStrictEqual({ ok: true, plan, notes: [] });
  });

  it('gives one text however the plan came about', () => {
    const { plan, ids } = smallPlan();
    const shuffled = {
      ...plan,
      parts: Object.fromEntries(
        Object.entries(plan.parts)
          .reverse()
          .map(([id, part]) => [id, Object.fromEntries(Object.entries(part).reverse()) as unknown as typeof part]),
      ),
    };
    expect(writePlan(shuffled)).toBe(writePlan(plan));
    const less = apply(plan, removeItems(plan, [ids.fuse]));
    expect(less.ok && writePlan(less.plan)).not.toBe(writePlan(plan));
  });

  it('puts one row on a line and ends with a newline', () => {
    const { plan, ids } = smallPlan();
    const text = writePlan(plan);
    expect(text.endsWith('}\n')).toBe(true);
    const line = text.split('\n').find((l) => l.trimStart().startsWith(`"${ids.fuse}"`));
    expect(line).toBe(
      `    "${ids.fuse}": {"id":"${ids.fuse}","kind":"blade-fuse","owner":"build","zone":"z2","x":20,"y":40,"turn":0,"name":"Main fuse","settings":{"ratingA":5}},`,
    );
  });
});
