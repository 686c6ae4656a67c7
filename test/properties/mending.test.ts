import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeResults, repairsFor } from '../../src/advise/index.ts';
import { type MendedPlan, MOST_STEPS, mendPlan } from '../../src/advise/mendPlan.ts';
import type { Results } from '../../src/advise/types.ts';
import { apply, invert } from '../../src/plan/apply.ts';
import type { Plan } from '../../src/plan/types.ts';
import { applyOrThrow } from '../rules/applied.ts';
import { runs } from '../runs.ts';
import { spoiltPlan } from './arbitraries.ts';

const keysOf = (results: Results, level?: string): string[] =>
  results.report.findings.filter((f) => level === undefined || f.level === level).map((f) => `${f.rule} ${f.subject.id}`);

/** Every repair offered for a finding takes it away and brings no hazard; gives their number. */
function tryOffers(plan: Plan, before: Results, finding: Results['report']['findings'][number]): number {
  const known = new Set(keysOf(before, 'hazard'));
  const offers = [...repairsFor(plan, before, finding)];
  for (const offer of offers) {
    const after = computeResults(applyOrThrow(plan, offer.edit));
    expect(keysOf(after), offer.title).not.toContain(`${finding.rule} ${finding.subject.id}`);
    expect(
      keysOf(after, 'hazard').filter((k) => !known.has(k)),
      offer.title,
    ).toEqual([]);
  }
  return offers.length;
}

/** Mending all of a plan ends, raises nothing, and is one edit that undoes; false when there was nothing to mend. */
function tryMending(plan: Plan, before: Results): boolean {
  const end = mended(plan, before);
  expect(end.steps.length).toBeLessThanOrEqual(MOST_STEPS);
  if (!end.edit) {
    expect(end.steps).toEqual([]);
    expect(end.after).toEqual(counted(before));
    return false;
  }
  const applied = apply(plan, end.edit);
  if (!applied.ok) throw new Error(applied.reason);
  // Counted here, in a plan worked out anew: what the mending says of itself is only compared.
  const after = computeResults(applied.plan);
  const [had, has] = [counted(before), counted(after)];
  expect({ before: end.before, after: end.after }).toEqual({ before: had, after: has });
  expect(has.hazards < had.hazards || (has.hazards === had.hazards && has.faults < had.faults), JSON.stringify({ had, has })).toBe(true);
  const known = new Set(keysOf(before, 'hazard'));
  expect(keysOf(after, 'hazard').filter((k) => !known.has(k))).toEqual([]);
  expect(applyOrThrow(applied.plan, invert(end.edit))).toEqual(plan);
  return true;
}

describe('mending a spoilt plan', () => {
  it('repair by repair takes findings away and brings no hazard; as a whole it ends, raises nothing, and is one edit that undoes', () => {
    let offered = 0;
    let mendedPlans = 0;
    fc.assert(
      fc.property(spoiltPlan, fc.nat(), (plan, pick) => {
        const results = computeResults(plan);
        const { findings } = results.report;
        // Costly: each offer works the plan out again. One finding a plan.
        if (findings.length > 0) offered += tryOffers(plan, results, findings[pick % findings.length]!);
        if (tryMending(plan, results)) mendedPlans++;
      }),
      { numRuns: runs(200) },
    );
    expect(offered).toBeGreaterThan(5);
    expect(mendedPlans).toBeGreaterThan(5);
  }, 3_600_000);
});

/** Hazards and faults that stand open in a plan, folded under others or not; what waits for its stage of the job waits. */
function counted({ report }: Results): { hazards: number; faults: number } {
  const waits = new Set(report.waiting.flatMap((c) => [...c.findings, ...c.folded]));
  const of = (level: string): number => report.findings.filter((f) => f.level === level && !waits.has(f)).length;
  return { hazards: of('hazard'), faults: of('fault') };
}

function mended(plan: Plan, results: Results): MendedPlan {
  const steps = mendPlan(plan, results);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
