import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'capacitor-volts';

describe('capacitor’s voltage rating too low', () => {
  it('50 V with a dump of 35 V: 1.25 x 35 = 43.75 V', () => clean(bench(), RULE));

  it('25 V bursts in a load dump of 35 V', () => {
    const b = bench().set('bulk', { ratedV: 25 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('bulk'), figures: { rated: 25, 'most that reaches it': 35 }, repairs: 1 });
  });

  it('40 V leaves less than a quarter in hand', () => {
    const b = bench().set('bulk', { ratedV: 40 });
    flagged(b, RULE, { level: 'advice', subject: b.id('bulk'), repairs: 1 });
  });

  it('either side of 35 V and of 43.75 V', () => {
    const rated = (ratedV: number) => bench().set('bulk', { ratedV });
    flagged(rated(34.9), RULE, { level: 'hazard', subject: rated(34.9).id('bulk') });
    flagged(rated(35), RULE, { level: 'advice', subject: rated(35).id('bulk') });
    flagged(rated(43.7), RULE, { level: 'advice', subject: rated(43.7).id('bulk') });
    clean(rated(43.8), RULE);
  });

  it('no central clamp, no clamp that counts: 101 V', () => {
    const b = bench('old', { centralClamping: 'no' }).set('bulk', { ratedV: 100 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('bulk'), figures: { 'most that reaches it': 101 }, repairs: 1 });
  });

  it('behind the converter 5.12 V: 4 V is too little, 6.3 V leaves less than a quarter, 10 V will do', () => {
    const out = (ratedV: number) => bench().part('c', 'capacitor', 'seat', { ratedV }).wire('c.+', 'converter.out').wire('c.-', 'converter.0v');
    const low = out(4);
    flagged(low, RULE, { level: 'hazard', subject: low.id('c'), figures: { 'most that reaches it': 5.12 }, repairs: 1 });
    const tight = out(6.3);
    flagged(tight, RULE, { level: 'advice', subject: tight.id('c'), repairs: 1 });
    clean(out(10), RULE);
  });
});
