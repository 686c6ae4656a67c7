import type { Bench } from '../../src/rules/book/bench.ts';
import { fused } from '../../src/rules/book/plans.ts';

export { Bench, ZONE } from '../../src/rules/book/bench.ts';
export { bench, fused, ground } from '../../src/rules/book/plans.ts';

/** Plans that together with the demo hold something for every rule to look at; they need not be in order. */
export function allKinds(): Bench[] {
  const linear = fused('linear')
    .part('regulator', 'linear-regulator', 'seat')
    .part('display', 'touch-display', 'seat', { typA: 0.06, peakA: 0.06 })
    .wire('fuse.2', 'regulator.in', { lengthM: 2 })
    .wire('regulator.gnd', 'ground.31', { lengthM: 2 })
    .wire('regulator.out', 'display.5v', { lengthM: 0.2 })
    .wire('display.0v', 'regulator.gnd', { lengthM: 0.2 })
    .part('lampR', 'resistor', 'seat', { ohm: 470 })
    .part('lamp', 'led', 'seat')
    .wire('regulator.out', 'lampR.1', { lengthM: 0.2 })
    .wire('lampR.2', 'lamp.A', { lengthM: 0.1 })
    .wire('lamp.K', 'regulator.gnd', { lengthM: 0.2 });
  return [linear];
}
