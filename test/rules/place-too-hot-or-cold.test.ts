import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'place-too-hot-or-cold';
const screen = (settings: Readonly<Record<string, number>> = {}): Bench =>
  bench()
    .part('screen', 'touch-display', 'dash', settings)
    .wire('converter.out', 'screen.5v', { lengthM: 2.5 })
    .wire('screen.0v', 'converter.0v', { lengthM: 2.5 });

describe('place too hot or too cold for a part', () => {
  // Sun class 85 °C on top of the dash, 70 °C behind it (from memory of cabin soak classes).
  it('an office screen of 0 to 50 °C on top of the dash', () => {
    const b = screen({ bearsMinC: 0, bearsMaxC: 50 }).zone('dash', { kind: 'dash-top' });
    flagged(b, RULE, { level: 'fault', subject: b.id('screen'), figures: { gets: 85, bears: 50 }, repairs: 1 });
  });

  it('one of −30 to 85 °C passes there', () => {
    clean(screen({ bearsMinC: -30, bearsMaxC: 85 }).zone('dash', { kind: 'dash-top' }), RULE);
  });

  it('either side: behind the dash 70 °C', () => {
    clean(screen({ bearsMaxC: 70 }), RULE);
    const b = screen({ bearsMaxC: 69 });
    flagged(b, RULE, { level: 'fault', subject: b.id('screen'), repairs: 1 });
  });

  it('frost: only where somebody has said how cold it gets', () => {
    clean(screen({ bearsMinC: -20 }), RULE);
    const b = screen({ bearsMinC: -20 }).zone('dash', { minC: -30 });
    flagged(b, RULE, { level: 'advice', subject: b.id('screen'), figures: { gets: -30 }, says: ['crawls'], repairs: 1 });
    const c = bench().set('computer', { bearsMinC: 0 }).zone('seat', { minC: -10 });
    flagged(c, RULE, { level: 'fault', subject: c.id('computer'), repairs: 1 });
  });

  it('hotter than anything one can buy', () => {
    const b = bench().zone('seat', { kind: 'engine-bay' });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { gets: 105 }, repairs: 0 });
  });

  it('nothing that says what it bears, nothing to say', () => {
    quiet(ground(), RULE);
  });
});
