import { describe, expect, it } from 'vitest';
import { clean, compute, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'converter-not-rugged';

describe('converter cannot stand the supply’s worst moments', () => {
  it('60 V stands the clamped dump of 35 V and a jump start of 26 V', () => clean(bench(), RULE));

  it('a module for 24 V: jump start 26 V, load dump 35 V (ISO 16750-2)', () => {
    const b = bench().set('converter', { inMaxV: 24, absMaxV: 24 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), figures: { 'converter stands': 24, 'worst moment': 35 }, repairs: 1 });
    // The surge rule says the same of the same part: one card.
    const cards = compute(b).report.cards.filter((c) => c.level === 'hazard');
    expect(cards.map((c) => [c.rule, c.folded.map((f) => f.rule)])).toEqual([[RULE, ['surge-not-stopped']]]);
  });

  it('no central clamp: 101 V, and no converter is offered for that', () => {
    const b = bench('old', { centralClamping: 'no' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), figures: { 'worst moment': 101 } });
  });

  it('not known: the answer is offered', () => {
    const b = bench('unknown', { centralClamping: 'unknown' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), repairs: 1 });
  });
});
