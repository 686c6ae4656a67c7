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

describe('a repair that is offered', () => {
  it('takes its finding away and brings no hazard', () => {
    let tried = 0;
    fc.assert(
      fc.property(spoiltPlan, fc.nat(), (plan, pick) => {
        const results = computeResults(plan);
        const { findings } = results.report;
        if (findings.length === 0) return;
        // Costly: each offer works the plan out again. One finding a plan.
        const finding = findings[pick % findings.length]!;
        const known = new Set(keysOf(results, 'hazard'));
        for (const offer of repairsFor(plan, results, finding)) {
          tried++;
          const after = computeResults(applyOrThrow(plan, offer.edit));
          expect(keysOf(after), offer.title).not.toContain(`${finding.rule} ${finding.subject.id}`);
          expect(
            keysOf(after, 'hazard').filter((k) => !known.has(k)),
            offer.title,
          ).toEqual([]);
        }
      }),
      { numRuns: runs(200) },
    );
    expect(tried).toBeGreaterThan(5);
  });
});

describe('mending a whole plan', () => {
  it('ends, raises nothing, and is one edit that undoes', () => {
    let mendedPlans = 0;
    fc.assert(
      fc.property(spoiltPlan, (plan) => {
        const before = computeResults(plan);
        const end = mended(plan, before);
        expect(end.steps.length).toBeLessThanOrEqual(MOST_STEPS);
        if (!end.edit) {
          expect(end.steps).toEqual([]);
          expect(end.after).toEqual(counted(before));
          return;
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
        mendedPlans++;
      }),
      { numRuns: runs(200) },
    );
    expect(mendedPlans).toBeGreaterThan(5);
  });
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
