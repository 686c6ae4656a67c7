import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeResults, repairsFor } from '../../src/advise/index.ts';
import { type MendedPlan, MOST_STEPS, mendPlan } from '../../src/advise/mendPlan.ts';
import type { Results } from '../../src/advise/types.ts';
import { apply, invert } from '../../src/plan/apply.ts';
import type { Plan } from '../../src/plan/types.ts';
import { applyOrThrow } from '../rules/applied.ts';
import { runs } from '../runs.ts';
import { anyPlan, spoiltPlan } from './arbitraries.ts';

const keysOf = (results: Results, level?: string): string[] =>
  results.report.findings.filter((f) => level === undefined || f.level === level).map((f) => `${f.rule} ${f.subject.id}`);

describe('what a finding says', () => {
  it('is whole: sentences, finite figures with a unit', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        for (const f of computeResults(plan).report.findings) {
          for (const text of [f.what, f.todo]) expect(text, f.rule).toMatch(/^\S.*[.?!]$/s);
          expect(`${f.what} ${f.todo}`, f.rule).not.toMatch(/NaN|undefined|null|\bInfinity/);
          for (const g of f.figures) expect([Number.isNaN(g.value), g.label === ''], `${f.rule}: ${g.label}`).toEqual([false, false]);
        }
      }),
      { numRuns: runs(200) },
    );
  });
});

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
      { numRuns: runs(40) },
    );
    expect(tried).toBeGreaterThan(5);
  });
});

describe('mending a whole plan', () => {
  it('ends, raises nothing, and is one edit that undoes', () => {
    fc.assert(
      fc.property(spoiltPlan, (plan) => {
        const end = mended(plan);
        expect(end.steps.length).toBeLessThanOrEqual(MOST_STEPS);
        expect(end.after.hazards).toBeLessThanOrEqual(end.before.hazards);
        if (end.after.hazards === end.before.hazards) expect(end.after.faults).toBeLessThanOrEqual(end.before.faults);
        if (!end.edit) return;
        const applied = apply(plan, end.edit);
        expect(applied.ok).toBe(true);
        if (applied.ok) expect(applyOrThrow(applied.plan, invert(end.edit))).toEqual(plan);
      }),
      { numRuns: process.env.LONG ? 100 : 8 },
    );
  });
});

function mended(plan: Plan): MendedPlan {
  const steps = mendPlan(plan, computeResults(plan));
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
