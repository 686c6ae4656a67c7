import { describe, expect, it } from 'vitest';
import { BEYOND, flowing, flowingFirst, heating } from '../../src/rules/beyond.ts';
import { amps } from '../../src/rules/defineRule.ts';
import { BLADE_RATINGS_A } from '../../src/trade/fuses.ts';
import { RESISTOR_WATTS } from '../../src/trade/preferred.ts';
import { compute, findingsOf } from './harness.ts';
import { bench, ground } from './plans.ts';

describe('figures that nothing lives to reach', () => {
  it('are told as far as they can be: either side of 200 A and 100 W', () => {
    expect(flowing(200)).toBe('200 A');
    expect(flowing(201)).toBe('more than 200 A');
    expect(flowingFirst(700)).toBe('More than 200 A');
    expect(heating(100)).toBe('100 W');
    expect(heating(2368)).toBe('more than 100 W');
  });

  it('lie above what is sold: blade fuses hold 110 % for long (ISO 8820-3, from memory), resistors their watts', () => {
    expect(BEYOND.amp).toBeGreaterThan(1.1 * Math.max(...BLADE_RATINGS_A));
    expect(BEYOND.watt).toBeGreaterThan(Math.max(...RESISTOR_WATTS));
  });

  // 12.6 V over some milliohms of post, wire and bolt: far over a thousand amps.
  it('a battery joined to a ground bolt: a short circuit in words, no bolt that is lifted by 3 V', () => {
    const b = ground().part('feed30', 'feed-30', 'dash', {}, { owner: 'vehicle' }).wire('battery.+', 'ground.31', { lengthM: 0.3, areaMm2: 35 });
    const [lift] = findingsOf(compute(b), 'ground-lifts');
    expect(lift?.what).toContain('short circuit');
    expect(
      findingsOf(compute(b), 'wire-overloaded')
        .map((f) => f.what)
        .join(),
    ).toContain('would carry more than 200 A');
    expect(lift?.what).not.toMatch(/\d{3,} A comes home/);
  });

  // 14 V over 0.1 Ω would be 140 A and two kilowatts.
  it('0.1 Ω as sense resistor: burns at once, and the LED is gone', () => {
    const b = bench().set('sense', { ohm: 0.1 });
    const what = (rule: string) => findingsOf(compute(b), rule).map((f) => f.what);
    expect(what('sense-resistor-too-hot').join()).toMatch(/more than 100 W.*burns at once/);
    expect(what('sense-led-overdriven').join()).toMatch(/more than 100 times/);
  });

  it('a bare short parked names nobody: what the list of drawers says when it is empty', () => {
    const b = bench().wire('feed30.out', 'ground.31', { lengthM: 0.5, areaMm2: 6 });
    const [parked] = findingsOf(compute(b), 'parked-draw-too-high');
    expect(parked?.what).toContain('through wires and joints alone');
  });

  it('no current is no fraction of a microampere', () => {
    expect(amps(2e-15)).toBe('0 A');
    expect(amps(0)).toBe('0 A');
    expect(amps(2e-9)).toBe('0.0020 µA');
  });
});
