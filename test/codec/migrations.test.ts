import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readPlan, writePlan } from '../../src/codec/index.ts';
import { migrations } from '../../src/codec/migrations.ts';
import { CURRENT_VERSION } from '../../src/codec/schema.ts';

const draft = readFileSync(new URL('./format-0.plan.json', import.meta.url), 'utf8');

describe('older formats', () => {
  it('there is a step from every earlier format', () => {
    expect(Object.keys(migrations).map(Number)).toStrictEqual(Array.from({ length: CURRENT_VERSION }, (_, v) => v));
  });

  it('a draft plan gets sizes under their name and kinds for its zones', () => {
    const read = readPlan(draft);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(read.plan.version).toBe(1);
    expect(read.plan.wires.w6?.areaMm2).toBe(1.5);
    expect(read.plan.wires.w6).not.toHaveProperty('size');
    expect(read.plan.wires.w7).not.toHaveProperty('areaMm2');
    expect(read.plan.zones.z1?.kind).toBe('dash');
    expect(read.plan.zones.z2?.kind).toBe('engine-bay');
    expect(read.notes).toStrictEqual(['The plan was in format 0 and has been brought up to 1.']);
    expect(readPlan(writePlan(read.plan))).toStrictEqual({ ok: true, plan: read.plan, notes: [] });
  });

  it('the old words are refused in the current format', () => {
    const read = readPlan(draft.replace('"version": 0', '"version": 1'));
    expect(read.ok ? [] : read.problems).toContainEqual({ where: 'wires › w6 › size', what: 'is not known here' });
  });
});
