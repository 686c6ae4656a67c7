import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'five-volt-half-alive';

function withOutput(farad: number, bleedOhm?: number): Bench {
  const b = bench()
    .part('big', 'capacitor', 'seat', { farad, ratedV: 6.3 })
    .wire('big.+', 'converter.out', { lengthM: 0.05 })
    .wire('big.-', 'converter.0v', { lengthM: 0.05 });
  return bleedOhm === undefined ? b : b.part('bleed', 'resistor', 'seat', { ohm: bleedOhm }).wire('bleed.1', 'big.+').wire('bleed.2', 'big.-');
}

describe('output capacitors keep the 5 V half alive', () => {
  it('25 F, 23 mA halted: 25 × 4.1 / 0.023 = 74 minutes', () => {
    const b = withOutput(25);
    flagged(b, RULE, { level: 'advice', subject: b.id('converter'), figures: { 'half alive for': 4457 }, says: ['74 minutes'] });
    expect(repairsOf(b, RULE), 'no resistor empties that in two seconds').toEqual([]);
  });

  it('10 000 µF: 1.8 s; 15 000 µF: 2.7 s, cured by a resistor', () => {
    clean(withOutput(0.01), RULE);
    const b = withOutput(0.015);
    flagged(b, RULE, { level: 'advice', subject: b.id('converter'), figures: { 'half alive for': 2.67 }, repairs: 1 });
  });

  it('470 Ω across 470 µF: 0.49 s however little the board draws', () => clean(withOutput(470e-6, 470), RULE));

  it('47 Ω across 15 000 µF: 0.015 × 47 × 2.22 = 1.6 s; 100 Ω do not help', () => {
    clean(withOutput(0.015, 47), RULE);
    const b = withOutput(0.015, 100);
    flagged(b, RULE, { level: 'advice', subject: b.id('converter'), figures: { 'half alive for': 2.67 } });
  });

  it('a hold relay that stays open for 5 s gives it that time', () => clean(withOutput(0.015).set('relay', { minOffS: 5 }), RULE));

  it('nothing on the 5 V', () => quiet(bench(), RULE));
});
