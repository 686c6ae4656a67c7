import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { bench, ground } from './plans.ts';
import { withCutout, withLatch } from './plansSense.ts';

const RULE = 'contact-under-rated';

describe('contact under-rated', () => {
  it('the bench’s hold relay: 30 A for some 1.5 A', () => {
    clean(bench(), RULE);
  });

  it('a 0.8 A contact ahead of the converter', () => {
    const b = bench().set('relay', { contactA: 0.8 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('relay'), figures: { 'made for': 0.8, carries: 0.92 }, repairs: 1 });
  });

  it('little in hand: advice', () => {
    // Carries 0.92 A: the bare board at 5.12 V and its peak 1.25 A, with 88 %: 1.25 × 5.12 / (0.88 × 8.8 V) = 0.83 A and up.
    const b = bench().set('relay', { contactA: 1 }).set('computer', { board: 'low-power' });
    clean(b, RULE);
    const c = bench().set('relay', { contactA: 1 });
    flagged(c, RULE, { level: 'advice', subject: c.id('relay'), repairs: 1 });
  });

  it('either side of the rating, and of one and a half times as much: it carries 0.92 A', () => {
    const rated = (contactA: number) => bench().set('relay', { contactA });
    flagged(rated(0.9), RULE, { level: 'hazard', subject: rated(0.9).id('relay') });
    flagged(rated(0.95), RULE, { level: 'advice', subject: rated(0.95).id('relay') });
    flagged(rated(1.35), RULE, { level: 'advice', subject: rated(1.35).id('relay') });
    clean(rated(1.42), RULE);
  });

  it('a rocker printed for 14 V says nothing of 28 V', () => {
    const b = bench('24', { systemV: 24 }).into('feed', 'switch', 'master-switch', ['1', '2']);
    unsure(b, RULE, '28.8 V');
  });

  it('what is too much at 14 V is too much at 28 V: no printed voltage is needed to say so', () => {
    const b = bench('24', { systemV: 24 }).into('feed', 'switch', 'master-switch', ['1', '2'], { dcA: 0.2 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('switch'), figures: { 'made for': 0.2 }, says: ['14 V'] });
  });

  it('a hold latch and a cut-out are contacts too', () => {
    clean(withLatch(), RULE);
    const b = withLatch().set('latch', { ratedA: 0.8 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('latch'), figures: { 'made for': 0.8 }, repairs: 1 });
    const c = withCutout().set('cutout', { ratedA: 0.8 });
    flagged(c, RULE, { level: 'hazard', subject: c.id('cutout'), figures: { 'made for': 0.8 }, repairs: 1 });
  });

  it('has nothing to say without a contact', () => {
    quiet(ground(), RULE);
  });
});
