import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';
import { straight, withIgnition } from './plansSense.ts';

const RULE = 'parked-draw-too-high';

describe('too much drawn while parked', () => {
  it('an open hold relay: 0.1 mA', () => {
    clean(bench(), RULE);
    expect(compute(bench()).analysis.parked.buildA).toBeLessThan(0.5e-3);
  });

  it('a computer that runs for ever', () => {
    const b = withIgnition(straight('30'));
    flagged(b, RULE, { level: 'fault', subject: b.plan.id, says: ['computer', '25 mA'], repairs: 1 });
  });

  it('without an ignition feed the repair brings one', () => {
    const b = straight('30');
    flagged(b, RULE, { level: 'fault', subject: b.plan.id, repairs: 1 });
  });

  it('a converter that idles at 3 mA is worth no word, at 10 mA it is', () => {
    // 10 mA is the greatest idle current of the older converter class.
    const idle = (a: number) => straight('30').without('computer').set('converter', { quiescentA: a });
    clean(idle(0.003), RULE);
    const b = idle(0.01);
    flagged(b, RULE, { level: 'advice', subject: b.plan.id, figures: { 'build, parked': 0.01 } });
  });

  it('limits of the plan are used', () => {
    const b = straight('30').without('computer').set('converter', { quiescentA: 0.01 }).threshold('parkedFaultA', 0.008);
    flagged(b, RULE, { level: 'fault', subject: b.plan.id });
  });

  it('has nothing to say of a build that hangs on nothing', () => {
    quiet(ground().cut('strap').without('battery'), RULE);
  });
});
