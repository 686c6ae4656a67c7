import { describe, expect, it } from 'vitest';
import { planSchema } from '../../src/codec/schema.ts';
import { writePlan } from '../../src/codec/write.ts';
import { partKinds } from '../../src/parts/index.ts';
import type { Plan } from '../../src/plan/types.ts';

const { shape } = planSchema([...partKinds.values()].slice(0, 1));
/** One row with every key that the schema knows; the values do not matter to the writer. */
const full = (keys: readonly string[]) =>
  Object.fromEntries(
    keys.map((key) => [key, key === 'from' || key === 'to' ? { part: 'p1', terminal: '1' } : key === 'supplyV' || key === 'settings' ? {} : key]),
  );
const keysOf = (schema: unknown): string[] => Object.keys((schema as { shape: object }).shape);
const rowOf = (table: unknown): unknown => (table as { valueType: unknown }).valueType;

describe('a file', () => {
  it('holds every field that can be read from one', () => {
    const tables = { zones: rowOf(shape.zones), runs: rowOf(shape.runs), wires: rowOf(shape.wires) };
    const rows = Object.fromEntries(Object.entries(tables).map(([name, schema]) => [name, { x: full(keysOf(schema)) }]));
    const head = { format: 'dashloom-plan', version: 1, id: 'a', title: 'a', note: '', nextSerial: 1 };
    const plan = { ...head, parts: {}, thresholds: {}, setAside: {}, ...rows, vehicle: full(keysOf(shape.vehicle)) } as unknown as Plan;
    const written = JSON.parse(
      writePlan({
        ...plan,
        alternative: { of: 'a', letter: 'B' },
        stage: 'wire',
        ticks: { 'buy:x': true },
        gone: { wires: {}, parts: {} },
        given: { wires: {}, items: {}, serial: 1 },
        revisions: {},
      }),
    ) as Record<string, Record<string, unknown>>;
    expect(Object.keys(written).sort(), 'the plan itself').toEqual(Object.keys(shape).sort());
    expect(Object.keys(JSON.parse(writePlan(plan)) as object)).not.toContain('ticks');
    expect(Object.keys(written.vehicle!).sort()).toEqual(keysOf(shape.vehicle).sort());
    for (const [name, schema] of Object.entries(tables)) expect(Object.keys(written[name]!.x as object).sort(), name).toEqual(keysOf(schema).sort());
  });
});
