import { expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { wireNumbers } from '../../src/plan/numbers.ts';
import type { Plan } from '../../src/plan/types.ts';
import { smallPlan } from '../plan/laws.ts';

const { plan } = smallPlan();
const read = (of: Plan) => {
  const done = readPlan(writePlan(of));
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  return done;
};

it('two wires under one number: the first keeps it, the other gets the lowest that is free, and it is told', () => {
  const [one, two, ...rest] = Object.keys(plan.wires) as [string, string, ...string[]];
  const wires = { ...plan.wires, [one]: { ...plan.wires[one]!, number: 9 }, [two]: { ...plan.wires[two]!, number: 9 } };
  const before = wireNumbers({ ...plan, wires }).standing;
  const done = read({ ...plan, wires });
  const after = wireNumbers(done.plan).standing;
  expect(after.get(one)).toBe(9);
  expect(new Set(after.values()).size).toBe(after.size);
  for (const id of rest) expect(after.get(id)).toBe(before.get(id));
  expect(done.notes).toEqual([`W9 stood twice, at ${one} and ${two}: ${two} is now W${after.get(two)}. Look at the labels in the vehicle.`]);
});

it('two parts of one letter under one item number: the same; other letters may have the number', () => {
  const fuse = Object.values(plan.parts).find((p) => p.kind === 'blade-fuse')!;
  const twin = { ...fuse, id: 'p900', item: 4 };
  const others = Object.fromEntries(Object.entries(plan.parts).map(([id, p]) => [id, p.kind === 'battery' ? { ...p, item: 4 } : p]));
  const done = read({ ...plan, nextSerial: 901, parts: { ...others, [fuse.id]: { ...fuse, item: 4 }, p900: twin } });
  expect([done.plan.parts[fuse.id]?.item, done.plan.parts.p900?.item]).toEqual([4, 1]);
  expect(done.notes).toEqual([`F4 stood twice, at ${fuse.id} and p900: p900 is now F1. Look at the labels in the vehicle.`]);
});

it('a plan without doubles is read as it stands, without a note', () => {
  expect(read(plan)).toEqual({ ok: true, plan, notes: [] });
});
