import { describe, expect, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { fused } from './plans.ts';

const RULE = 'regulator-too-hot';

/** A linear regulator with one 5 V load of that current, under the seat (45 °C while running). */
const linear = (amp: number, settings = {}) =>
  fused('linear')
    .part('regulator', 'linear-regulator', 'seat', settings)
    .part('display', 'touch-display', 'seat', { typA: amp, peakA: amp })
    .wire('fuse.2', 'regulator.in', { lengthM: 2 }, 'in')
    .wire('regulator.gnd', 'ground.31', { lengthM: 2 }, 'gnd')
    .wire('regulator.out', 'display.5v', { lengthM: 0.2, areaMm2: 0.5 })
    .wire('display.0v', 'regulator.gnd', { lengthM: 0.2, areaMm2: 0.5 });

describe('linear regulator burning the difference', () => {
  it('60 mA at 16 V: 0.66 W and 0.07 W of its own, 65 K/W: 92 °C (7805 data sheet, read)', () => clean(linear(0.06), RULE));

  it('0.12 A: (11 x 0.12 + 16 x 0.0042) x 65 + 45 = 135 °C, a fault', () => {
    const b = linear(0.12);
    flagged(b, RULE, { level: 'fault', subject: b.id('regulator'), figures: { junction: 45 + 65 * (11 * 0.12 + 16 * 0.0042) }, repairs: 1 });
  });

  // 5.57 W on 65 K/W would be 407 °C: the chip shuts down at 150 to 175 °C or dies (7805 data sheet, read).
  it('0.5 A: says that it never gets there, with the watts and its limit', () => {
    const b = linear(0.5);
    const { what } = flagged(b, RULE, {
      level: 'hazard',
      subject: b.id('regulator'),
      figures: { 'power burnt': 5.5 + 0.0672, 'junction may get': 125 },
      says: ['5.6 W', 'its limit of 125 °C long before'],
      repairs: 1,
    });
    expect(what).not.toContain('407');
  });

  it('either side of 200 °C: (11 V × I + 0.067 W) × 65 K/W above 45 °C', () => {
    const there = linear(0.21);
    flagged(there, RULE, { level: 'hazard', subject: there.id('regulator'), figures: { junction: 199.5 }, says: ['°C inside'] });
    const beyond = linear(0.212);
    flagged(beyond, RULE, { level: 'hazard', subject: beyond.id('regulator'), says: ['long before'] });
  });

  // Hand: (12 V × 1.02 − 5 V) × 0.5 A + 12.2 V × 4.2 mA = 3.67 W; 45 + 65 × 3.67 = 284 °C: beyond its limit.
  it('behind a 12 V converter it burns what that sends', () => {
    const behind = (amp: number) =>
      linear(amp)
        .cut('in', 'gnd')
        .part('twelve', 'step-down', 'seat', { setV: 12 })
        .wire('fuse.2', 'twelve.in', { lengthM: 2 })
        .wire('twelve.gnd', 'ground.31', { lengthM: 2 })
        .wire('twelve.out', 'regulator.in', { lengthM: 0.2, areaMm2: 1.5 })
        .wire('regulator.gnd', 'twelve.0v', { lengthM: 0.2, areaMm2: 1.5 });
    const b = behind(0.5);
    flagged(b, RULE, { level: 'hazard', subject: b.id('regulator'), figures: { 'power burnt': 3.67 }, says: ['12.2 V'], repairs: 1 });
    clean(behind(0.05), RULE);
  });

  it('either side of 115 °C, and of 150 °C: (11 V × I + 0.067 W) × 65 K/W above 45 °C', () => {
    clean(linear(0.09), RULE);
    const warm = linear(0.094);
    flagged(warm, RULE, { level: 'fault', subject: warm.id('regulator') });
    const hot = linear(0.139);
    flagged(hot, RULE, { level: 'fault', subject: hot.id('regulator') });
    const burnt = linear(0.143);
    flagged(burnt, RULE, { level: 'hazard', subject: burnt.id('regulator') });
  });

  it('on a heat sink of 8 K/W 0.5 A is in order', () => clean(linear(0.5, { rthKPerW: 8 }), RULE));
});
