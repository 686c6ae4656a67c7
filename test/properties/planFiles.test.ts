import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { partKinds } from '../../src/parts/index.ts';
import type { PartKind, Setting } from '../../src/parts/types.ts';
import { apply } from '../../src/plan/apply.ts';
import { addPart, setAside, setHead, setThreshold } from '../../src/plan/edits.ts';
import { emptyPlan } from '../../src/plan/new.ts';
import type { Edit, Plan, Value } from '../../src/plan/types.ts';
import { smallPlan } from '../plan/laws.ts';
import { runs } from '../runs.ts';

const kinds = [...partKinds.values()];

function anyValue(setting: Setting): fc.Arbitrary<Value> {
  switch (setting.type) {
    case 'number':
      return fc.double({ min: setting.min, max: setting.max, noNaN: true }).map((v) => v + 0);
    case 'choice':
      return fc.constantFrom(...setting.options.map((o) => o.value));
    case 'flag':
      return fc.boolean();
    case 'text':
      return fc.string({ maxLength: setting.maxLength });
  }
}

const typed = (kind: PartKind): fc.Arbitrary<Readonly<Record<string, Value>>> =>
  fc.record(Object.fromEntries(kind.settings.map((s) => [s.key, anyValue(s)])), { requiredKeys: [], noNullPrototype: true }) as fc.Arbitrary<
    Readonly<Record<string, Value>>
  >;

const anyPart = fc
  .constantFrom(...kinds)
  .chain((kind) => fc.record({ kind: fc.constant(kind.kind), settings: typed(kind), name: fc.string({ maxLength: 80 }), x: fc.nat(5000), y: fc.nat(5000) }));

const done = (plan: Plan, edit: Edit): Plan => {
  const next = apply(plan, edit);
  if (!next.ok) throw new Error(next.reason);
  return next.plan;
};

describe('plan files', () => {
  it('any text is refused or read, never a crash', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: 'binary' }), fc.json()), (text) => !readPlan(text).ok),
      { numRuns: runs(300) },
    );
  });

  it('a plan with any value put anywhere is refused with a place, or read', () => {
    const { plan } = smallPlan();
    const text = writePlan(plan);
    const paths = everyPath(JSON.parse(text));
    let refused = 0;
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.jsonValue(), (path, value) => {
        const read = readPlan(JSON.stringify(withValue(JSON.parse(text), path, value)));
        if (read.ok) return;
        refused += 1;
        expect(read.problems.length).toBeGreaterThan(0);
        for (const problem of read.problems) {
          expect(problem.what).not.toBe('');
          expect(problem.what).not.toMatch(/undefined|could not be understood/);
        }
      }),
      { numRuns: runs(600) },
    );
    expect(refused).toBeGreaterThan(200);
  });

  it('every part with any allowed settings comes back the same', () => {
    fc.assert(
      fc.property(
        fc.array(anyPart, { minLength: 1, maxLength: 6 }),
        fc.string({ maxLength: 200 }),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        (list, title, limit) => {
          let plan = emptyPlan('t', {}, 't');
          plan = done(plan, setHead(plan, { title }));
          plan = done(plan, setThreshold(plan, 'limit', limit + 0));
          plan = done(plan, setAside(plan, 'question', title));
          for (const part of list) plan = done(plan, addPart(plan, { ...part, zone: 'z2' }).edit);
          expect(readPlan(writePlan(plan))).toStrictEqual({ ok: true, plan, notes: [] });
        },
      ),
      { numRuns: runs(200) },
    );
  });
});

type Path = readonly string[];

function everyPath(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [...(path.length > 0 ? [path] : []), ...Object.entries(value).flatMap(([key, inner]) => everyPath(inner, [...path, key]))];
}

function withValue(root: unknown, path: Path, value: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  const record = root as Record<string, unknown>;
  return { ...record, [key]: withValue(record[key], rest, value) };
}
