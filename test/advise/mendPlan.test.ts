import { describe, expect, it } from 'vitest';
import { computeResults } from '../../src/advise/index.ts';
import { type MendedPlan, MOST_STEPS, mendPlan } from '../../src/advise/mendPlan.ts';
import { apply, invert } from '../../src/plan/apply.ts';
import type { Plan } from '../../src/plan/types.ts';
import { applyOrThrow } from '../rules/applied.ts';
import { bench } from '../rules/plans.ts';

function mended(plan: Plan): MendedPlan {
  const steps = mendPlan(plan, computeResults(plan));
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

const open = (plan: Plan) => computeResults(plan).report.findings.filter((f) => f.level !== 'advice');

/** No diode across the sensing LED, and the fuse 0.8 m from its tap behind a donor fuse that nobody has read. */
const spoiled = () => bench().without('reverse').wireSet('tap', { lengthM: 0.8 }).set('feed30', { donorFuseRead: false });

describe('mending a whole plan', () => {
  it('makes the safe repairs, says what each was for, and is one edit that undoes as one', () => {
    const { plan } = spoiled();
    const end = mended(plan);
    expect(end.steps.map((s) => s.rule).sort()).toEqual(['fuse-far-from-tap', 'sense-led-unguarded']);
    expect(end.before).toEqual({ hazards: 1, faults: 1 });
    expect(end.after).toEqual({ hazards: 0, faults: 0 });
    expect(end.questions).toEqual([]);
    expect(end.effect.buys).toContainEqual(expect.stringMatching(/^1 × Diode/));
    const after = applyOrThrow(plan, end.edit!);
    expect(open(after)).toEqual([]);
    expect(applyOrThrow(after, invert(end.edit!))).toEqual(plan);
  });

  it('a capacitor ahead of the fuse comes behind fuse and guard; no second guard is bought for it', () => {
    const { plan } = bench().cut('bulk+').wire('bulk.+', 'fuse.1', { lengthM: 0.1 });
    const end = mended(plan);
    expect(end.before.hazards).toBeGreaterThan(0);
    expect(end.after).toEqual({ hazards: 0, faults: 0 });
    const after = applyOrThrow(plan, end.edit!);
    expect(Object.values(after.parts).filter((p) => p.kind === 'reverse-guard')).toHaveLength(1);
    expect(Object.keys(after.parts)).toHaveLength(Object.keys(plan.parts).length);
  });

  it('a clean plan has nothing to mend', () => {
    expect(mended(bench().plan)).toMatchObject({ edit: null, steps: [], questions: [] });
  });

  it('what is fitted in the vehicle is left as a question', () => {
    const b = spoiled();
    const fuse = b.id('fuse');
    const plan = { ...b.plan, parts: { ...b.plan.parts, [fuse]: { ...b.plan.parts[fuse]!, fitted: true } } };
    const end = mended(plan);
    expect(end.steps.map((s) => s.rule)).toEqual(['sense-led-unguarded']);
    expect(end.questions.map((q) => q.finding.rule)).toEqual(['fuse-far-from-tap']);
    expect(apply(plan, end.edit!).ok).toBe(true);
  });

  it('ends, and never leaves more hazards or faults', () => {
    const { plan } = spoiled().set('computer', { senseGpio: 14 }).set('sense', { ohm: 330 }).without('clamp').vehicle({ centralClamping: 'no' });
    const end = mended(plan);
    expect(end.steps.length).toBeLessThanOrEqual(MOST_STEPS);
    expect(end.after.hazards).toBeLessThanOrEqual(end.before.hazards);
    const now = open(end.edit ? applyOrThrow(plan, end.edit) : plan);
    expect(now.filter((f) => f.level === 'hazard')).toHaveLength(end.after.hazards);
    expect(now.filter((f) => f.level === 'fault')).toHaveLength(end.after.faults);
  });
});
