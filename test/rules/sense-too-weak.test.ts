import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'sense-too-weak';

describe('key sensor cannot move its pin on a weak battery', () => {
  it('817 rank A with 10 kΩ has 1.02 mA against the 0.39 mA that 9.5 kΩ ask for', () => {
    clean(bench(), RULE);
  });

  it('4N25 with 10 kΩ and the pin’s own pull-up: 0.159 mA of 0.50 mA', () => {
    // (9 − 1.5) / 2310 = 3.25 mA × 0.2 × 0.49 × 0.5; 1.2 × 3.065 V / 7.38 kΩ.
    const b = bench().set('opto', { type: '4n25' }).set('computer', { gpio16Mode: 'in-up' });
    flagged(b, RULE, {
      level: 'fault',
      subject: b.id('opto'),
      figures: { 'LED current': 3.25e-3, 'sure output current': 0.159e-3, needed: 0.498e-3 },
      repairs: 2,
    });
  });

  it('4N25 with the pin’s own pull-up alone is strong enough: 0.11 mA needed', () => {
    clean(bench().set('opto', { type: '4n25' }).without('pull').set('computer', { gpio16Mode: 'in-up' }), RULE);
  });

  it('4N25 with 33 kΩ and the pin’s own pull-up off is strong enough: 0.117 mA needed', () => {
    clean(bench().set('opto', { type: '4n25' }).set('pull', { ohm: 33_000 }), RULE);
  });

  it('24 V: 4N25 behind 2.2 kΩ is strong enough, it gets 7 mA', () => {
    clean(bench('24', { systemV: 24 }).set('opto', { type: '4n25' }).set('sense', { ohm: 2200 }).set('computer', { gpio16Mode: 'in-up' }), RULE);
  });

  it('a sense resistor of 10 kΩ leaves too little', () => {
    const b = bench().set('sense', { ohm: 10_000 });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), repairs: 1 });
  });

  it('has nothing to say without a sensor', () => {
    quiet(ground(), RULE);
  });
});
