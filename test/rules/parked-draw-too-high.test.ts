import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench, fused, ground } from './plans.ts';
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

  // A camera of 0.15 A at 12 V: 0.15 A out of the one battery it hangs on, 0.075 A out of both where an equaliser shares it.
  it('what hangs on the middle of a pair empties a battery too', () => {
    const middle = (pair: string) =>
      fused('middle', { systemV: 24 })
        .set('feed30', { pair })
        .part('camera', 'camera', 'seat', { typA: 0.15 })
        .wire('fuse.2', 'camera.+', { lengthM: 1 })
        .wire('camera.-', 'ground.31', { lengthM: 1 });
    const b = middle('half');
    flagged(b, RULE, { level: 'fault', subject: b.plan.id, figures: { 'build, parked': 0.15 }, says: ['camera 0.15 A'] });
    const shared = middle('balanced');
    flagged(shared, RULE, { level: 'fault', subject: shared.plan.id, figures: { 'build, parked': 0.075 } });
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

  it('either side of 5 mA and of 25 mA, and of 50 mA for the whole vehicle', () => {
    const idle = (a: number, parkedA = 0.02) => straight('30', 'idle', { parkedA }).without('computer').set('converter', { quiescentA: a });
    // Guard and capacitor leak 0.12 mA.
    clean(idle(0.0048), RULE);
    flagged(idle(0.005), RULE, { level: 'advice', subject: idle(0.005).plan.id, says: ['worth a look', '5.1 mA', '5.0 mA'] });
    flagged(idle(0.0247), RULE, { level: 'advice', subject: idle(0.0247).plan.id });
    flagged(idle(0.025), RULE, { level: 'fault', subject: idle(0.025).plan.id, says: ['25.1 mA', '25 mA is the most'] });
    // 39 mA of its own and 10 mA of ours stay below 50 mA, 41 mA and 10 mA do not; a vehicle that is above by itself is not ours to mend.
    flagged(idle(0.01, 0.039), RULE, { level: 'advice', subject: idle(0.01, 0.039).plan.id });
    flagged(idle(0.01, 0.041), RULE, { level: 'fault', subject: idle(0.01, 0.041).plan.id });
    flagged(idle(0.01, 0.06), RULE, { level: 'advice', subject: idle(0.01, 0.06).plan.id });
  });

  it('limits of the plan are used', () => {
    const b = straight('30').without('computer').set('converter', { quiescentA: 0.01 }).threshold('parkedFaultA', 0.008);
    flagged(b, RULE, { level: 'fault', subject: b.plan.id });
  });

  it('has nothing to say of a build that hangs on nothing', () => {
    quiet(ground().cut('strap').without('battery'), RULE);
  });
});
