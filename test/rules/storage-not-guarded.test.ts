import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet, unsure } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'storage-not-guarded';

// Worked by hand: a stop of 31 s wants 38.75 s; held 40 s is 1.03 times as long, 81 s is 2.1 times.
describe('storage bears no sudden loss of power', () => {
  it('a plain card and 40 s of hold', () => {
    const b = bench().set('computer', { storage: 'written' }).set('relay', { holdS: 44.5 });
    flagged(b, RULE, {
      level: 'advice',
      subject: b.id('computer'),
      figures: { 'held at least': 40.05, needed: 38.75, margin: 1.03 },
      says: ['1.03 times'],
      repairs: 1,
    });
  });

  it('a read-only system, or 81 s', () => {
    clean(bench().set('computer', { storage: 'protected' }).set('relay', { holdS: 44.5 }), RULE);
    clean(bench().set('computer', { storage: 'written' }), RULE);
  });

  it('just either side of twice the need, 77.5 s', () => {
    clean(bench().set('computer', { storage: 'written' }).set('relay', { holdS: 86.5 }), RULE);
    const b = bench().set('computer', { storage: 'written' }).set('relay', { holdS: 85.5 });
    flagged(b, RULE, { level: 'advice', subject: b.id('computer'), repairs: 1 });
  });

  it('asks where it matters', () => {
    unsure(bench().set('relay', { holdS: 44.5 }), RULE, 'bears a sudden loss');
    clean(bench(), RULE);
  });

  it('stands under the card of a power that goes too soon', () => {
    const b = bench().set('computer', { storage: 'written' }).set('relay', { holdS: 20 });
    const card = compute(b).report.cards.find((c) => c.rule === 'power-gone-too-soon');
    expect(card?.folded.map((f) => f.rule)).toContain(RULE);
  });

  it('has nothing to say of a computer that nothing feeds', () => {
    quiet(ground().part('computer', 'computer', 'seat'), RULE);
  });
});
