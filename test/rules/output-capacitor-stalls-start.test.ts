import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'output-capacitor-stalls-start';

/** A capacitor on the 5 V; the board draws 1.25 A at its peak, so a limit of 2.15 A leaves 0.9 A. */
const withOutput = (farad: number) =>
  bench()
    .set('converter', { limitMinA: 2.15, limitMaxA: 4, ratedA: 2 })
    .part('big', 'capacitor', 'seat', { farad, ratedV: 16, tol: 0.001 })
    .wire('big.+', 'converter.out', { lengthM: 0.05 })
    .wire('big.-', 'converter.0v', { lengthM: 0.05 });

describe('big capacitor after the converter stops it starting', () => {
  it('10 000 µF with 0.9 A left over: 57 ms', () => {
    const b = withOutput(0.01);
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'time to fill': 0.057, 'left over': 0.9 }, says: ['57 ms'], repairs: 1 });
  });

  it('470 µF: 2.7 ms; the sides of 10 ms are 1500 µF and 2200 µF', () => {
    clean(withOutput(470e-6), RULE);
    clean(withOutput(1500e-6), RULE);
    const b = withOutput(2200e-6);
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'time to fill': 0.0125 }, repairs: 1 });
  });

  it('a converter that holds its limit instead of pausing fills any capacitor in the end', () => clean(withOutput(0.01).set('converter', { pauseS: 0 }), RULE));

  it('what a diode keeps out of the output is not filled', () => {
    const b = bench()
      .part('big', 'capacitor', 'seat', { farad: 0.01, ratedV: 16 })
      .part('d', 'diode', 'seat', { type: '1n5819' })
      .wire('big.+', 'd.A')
      .wire('d.K', 'converter.out')
      .wire('big.-', 'converter.0v');
    quiet(b, RULE);
  });

  it('a capacitor ahead of the converter is another matter', () => quiet(bench().set('bulk', { farad: 0.01 }), RULE));
});
