import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'stands-too-long';

// Worked by hand for the bench: 0.4 x 90 Ah / (24 h x (35 mA + 5 mA of its own loss + 0.1 mA)) = 37 days.
describe('stands longer than its battery lasts', () => {
  it('21 days', () => {
    clean(bench('short', { standingDays: 21 }), RULE);
  });

  it('120 days', () => {
    const b = bench('season', { standingDays: 120 });
    flagged(b, RULE, { level: 'advice', subject: b.plan.id, figures: { 'meant to stand': 120, lasts: 37.4 }, says: ['lasts about 37 days'], repairs: 1 });
  });

  it('just either side of what it lasts', () => {
    clean(bench('37', { standingDays: 37 }), RULE);
    const b = bench('38', { standingDays: 38 });
    flagged(b, RULE, { level: 'advice', subject: b.plan.id, repairs: 1 });
  });

  it('with an isolator', () => {
    clean(bench('season', { standingDays: 120, isolator: true }), RULE);
  });

  it('stands under the battery’s own card when the build is to blame', () => {
    const b = bench('thirsty', { standingDays: 120, parkedA: 0.001 }).set('relay', { idleA: 0.02 });
    const card = compute(b).report.cards.find((c) => c.rule === 'battery-flat-too-soon' || c.folded.some((f) => f.rule === 'battery-flat-too-soon'));
    expect(card?.folded.map((f) => f.rule)).toContain(RULE);
  });

  it('has nothing to say while nothing is joined to the vehicle', () => {
    quiet(ground('bare', { standingDays: 120 }), RULE);
  });
});
