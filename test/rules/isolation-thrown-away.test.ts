import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'isolation-thrown-away';

describe('the sensor’s two grounds share a wire', () => {
  it('LED return at the radio ground, output at the computer’s ground', () => {
    clean(bench(), RULE);
  });

  it('both at one splice', () => {
    const b = bench()
      .cut('led-', 'return')
      .part('g1', 'splice', 'seat')
      .wire('opto.K', 'g1.s', { lengthM: 0.2 }, 'led-')
      .wire('converter.gnd', 'g1.s', { lengthM: 0.2 })
      .wire('g1.s', 'ground.31', { lengthM: 2 }, 'return');
    flagged(b, RULE, { level: 'advice', subject: b.id('opto'), repairs: 1 });
  });

  it('the LED’s return at the converter’s ground', () => {
    const b = bench().cut('led-').wire('opto.K', 'converter.gnd', { lengthM: 0.2 }, 'led-');
    flagged(b, RULE, { level: 'advice', subject: b.id('opto'), repairs: 1 });
  });

  it('has nothing to say without a sensor', () => {
    quiet(ground(), RULE);
  });
});
