import { describe, expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { alternativeTo, familyOf, letterOf, STRETCH, type Wiring, wiringsOf } from '../../src/plan/alternatives.ts';
import { apply } from '../../src/plan/apply.ts';
import { addPart, setHead } from '../../src/plan/edits.ts';
import type { Plan } from '../../src/plan/types.ts';
import { smallPlan } from './laws.ts';

const { plan } = smallPlan();
const copy = (of: Plan, list: Parameters<typeof alternativeTo>[1], id: string): Plan => alternativeTo(of, list, id) as Plan;
const b = copy(plan, [plan], 'plan-b');
const withPart = (to: Plan): Plan => {
  const zone = Object.keys(to.zones)[0] as string;
  const done = apply(to, addPart(to, { kind: 'resistor', zone, x: 0, y: 0 }).edit);
  if (!done.ok) throw new Error(done.reason);
  return done.plan;
};
const added = (before: Plan, after: Plan): string[] => Object.keys(after.parts).filter((id) => !before.parts[id]);

describe('a further wiring', () => {
  it('is a copy with the same ids, under the next letter', () => {
    expect(letterOf(plan)).toBe('A');
    expect(b).toMatchObject({ id: 'plan-b', title: plan.title, alternative: { of: plan.id, letter: 'B' } });
    expect(b.parts).toBe(plan.parts);
    expect(b.wires).toBe(plan.wires);
  });

  it('belongs to the first plan, also when it is a copy of a copy; no letter that is kept is given twice', () => {
    const c = copy(b, [plan, b], 'plan-c');
    expect(c.alternative).toStrictEqual({ of: plan.id, letter: 'C' });
    expect([plan, b, c].map(familyOf)).toStrictEqual([plan.id, plan.id, plan.id]);
    expect(letterOf(copy(plan, [plan, c], 'x'))).toBe('D');
    expect(wiringsOf<Wiring>(b, [c, { id: 'stranger' } as Wiring, b, plan]).map(letterOf)).toStrictEqual(['A', 'B', 'C']);
  });

  it('ends at Z', () => {
    const z: Plan = { ...b, alternative: { of: plan.id, letter: 'Z' } };
    expect(alternativeTo(plan, [z])).toBeNull();
    expect(alternativeTo(z, [])).toBeNull();
  });

  it('never gives an id that another wiring gives: what is added here is not what is added there', () => {
    const c = copy(b, [plan, b], 'plan-c');
    const ids = [added(plan, withPart(plan)), added(b, withPart(b)), added(c, withPart(c))].flat();
    expect(new Set(ids).size).toBe(3);
    expect(ids[1]).toBe(`p${STRETCH}`);
  });

  it('keeps what it belongs to through edits, and in its file', () => {
    const renamed = apply(b, setHead(b, { title: 'Other' }));
    expect(renamed.ok && renamed.plan.alternative).toStrictEqual(b.alternative);
    const read = readPlan(writePlan(b));
    expect(read.ok && read.plan).toStrictEqual(b);
    expect(writePlan(plan)).not.toContain('alternative');
    const wrong = readPlan(writePlan({ ...b, alternative: { of: plan.id, letter: 'A' } }));
    expect(wrong.ok).toBe(false);
  });
});
