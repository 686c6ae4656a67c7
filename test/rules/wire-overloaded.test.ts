import { describe, it } from 'vitest';
import { heaters } from '../../src/rules/book/examples/wire-overloaded.ts';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'wire-overloaded';

describe('wire carries more than it may', () => {
  it('the bench is in order', () => clean(bench(), RULE));

  it('6 A in 0.5 mm², which may carry 5 A at 60 °C', () => {
    const b = heaters(0.5);
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('there'), figures: { carries: 6, 'planning limit': 5 }, repairs: 1 });
    clean(heaters(0.75), RULE);
  });
});
