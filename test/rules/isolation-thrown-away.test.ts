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

  it('the resistor may stand in the LED’s return: what counts is where that ends', () => {
    const behind = (to: string) =>
      bench().cut('led-').part('low', 'resistor', 'seat', { ohm: 100 }).wire('opto.K', 'low.1', { lengthM: 0.05 }).wire('low.2', to, { lengthM: 2 }, 'led-');
    const b = behind('converter.gnd');
    flagged(b, RULE, { level: 'advice', subject: b.id('opto'), repairs: 1 });
    clean(behind('ground.31'), RULE);
  });

  it('has nothing to say without a sensor', () => {
    quiet(ground(), RULE);
  });
});
