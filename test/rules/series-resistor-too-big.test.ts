import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'series-resistor-too-big';
/** A button over a resistor, the pin's own pull-up on. */
const button = (ohm: number) =>
  bench()
    .part('button', 'push-button', 'seat')
    .part('r', 'resistor', 'seat', { ohm })
    .wire('computer.29', 'r.1', { lengthM: 0.05 }, 'pin')
    .wire('r.2', 'button.1', { lengthM: 0.2 })
    .wire('button.2', 'converter.0v')
    .set('computer', { gpio5Mode: 'in-up' });

describe('series resistor too big for the pull-up', () => {
  // Calculated: 3.465 V x 23.1/(23.1 + 33) = 1.43 V; 1 kΩ: 3.465 x 1.05/34.05 = 0.107 V; limit 0.8 - 0.2 V.
  it('22 kΩ against 33 kΩ, and 1 kΩ', () => {
    const b = button(22_000);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), figures: { pressed: 1.43, 'must come below': 0.6 }, repairs: 1 });
    clean(button(1000), RULE);
  });

  // 0.6 V is reached at R x 1.05 = 33 k x 0.6/2.865 = 6.91 kΩ.
  it('either side of the limit', () => {
    clean(button(6200), RULE);
    const b = button(6800);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), repairs: 1 });
  });

  it('a stiff pull-up at the pin makes it worse', () => {
    const b = button(4700).part('up', 'resistor', 'seat', { ohm: 10_000 }).wire('up.1', 'r.1', { lengthM: 0.05 }).wire('up.2', 'computer.17', { lengthM: 0.1 });
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin'), repairs: 1 });
  });

  it('has nothing to say without a resistor in line', () => {
    quiet(bench(), RULE);
  });
});
