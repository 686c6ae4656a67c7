import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';
import { straight } from './plansSense.ts';

const RULE = 'battery-flat-too-soon';
/** Converter alone on permanent, at an idle current. */
const idle = (a: number, vehicle = {}) =>
  straight('30', 'idle', { batteryAh: 60, parkedA: 0.03, ...vehicle })
    .without('computer')
    .set('converter', { quiescentA: a });

describe('will not start after standing', () => {
  it('hold relay open', () => {
    clean(bench(), RULE);
  });

  it('60 Ah, 30 mA and 77 mA: 0.4 × 60 / (24 × (0.030 + 0.077 + 0.0033)) = 9.1 days', () => {
    const b = idle(0.077);
    flagged(b, RULE, { level: 'fault', subject: b.plan.id, figures: { days: 9.06, 'days without the build': 30, 'meant to stand': 21 }, repairs: 1 });
  });

  it('2 mA more: 28 days, no word; 10 mA more: 23 days, advice', () => {
    clean(idle(0.002), RULE);
    const b = idle(0.01);
    flagged(b, RULE, { level: 'advice', subject: b.plan.id, figures: { days: 23.1 } });
  });

  it('a vehicle that cannot stand so long by itself is not the build’s fault', () => {
    clean(idle(0.002, { standingDays: 120 }), RULE);
  });

  it('has nothing to say of a build that hangs on nothing', () => {
    quiet(ground().cut('strap').without('battery'), RULE);
  });
});
