import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { fused } from './plans.ts';

const RULE = 'regulator-too-hot';

/** A linear regulator with one 5 V load of that current, under the seat (45 °C while running). */
const linear = (amp: number, settings = {}) =>
  fused('linear')
    .part('regulator', 'linear-regulator', 'seat', settings)
    .part('display', 'touch-display', 'seat', { typA: amp, peakA: amp })
    .wire('fuse.2', 'regulator.in', { lengthM: 2 })
    .wire('regulator.gnd', 'ground.31', { lengthM: 2 })
    .wire('regulator.out', 'display.5v', { lengthM: 0.2, areaMm2: 0.5 })
    .wire('display.0v', 'regulator.gnd', { lengthM: 0.2, areaMm2: 0.5 });

describe('linear regulator burning the difference', () => {
  it('60 mA at 16 V: 0.66 W and 0.07 W of its own, 65 K/W: 92 °C (7805 data sheet, read)', () => clean(linear(0.06), RULE));

  it('0.12 A: (11 x 0.12 + 16 x 0.0042) x 65 + 45 = 135 °C, a fault', () => {
    const b = linear(0.12);
    flagged(b, RULE, { level: 'fault', subject: b.id('regulator'), figures: { junction: 45 + 65 * (11 * 0.12 + 16 * 0.0042) }, repairs: 1 });
  });

  it('0.5 A would make 407 °C', () => {
    const b = linear(0.5);
    flagged(b, RULE, { level: 'hazard', subject: b.id('regulator'), figures: { 'power burnt': 5.5 + 0.0672 }, repairs: 1 });
  });

  it('on a heat sink of 8 K/W 0.5 A is in order', () => clean(linear(0.5, { rthKPerW: 8 }), RULE));
});
