import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'pull-works-against-button';
const button = (pin: number) =>
  bench()
    .set('computer', { senseGpio: 22 })
    .part('button', 'push-button', 'seat')
    .wire('button.1', `computer.${pin}`, { lengthM: 0.2 }, 'pin')
    .wire('button.2', 'converter.0v');
const pulled = (ohm: number) =>
  button(15).part('up', 'resistor', 'seat', { ohm }).wire('up.1', 'button.1', { lengthM: 0.05 }).wire('up.2', 'computer.17', { lengthM: 0.1 });

describe('a stop button reads “pressed” until the program has set its pin', () => {
  // Board maker's pin pages: GPIO 0 to 8 start pulled up, 9 to 27 down.
  it('GPIO 22 starts pulled down, GPIO 5 up', () => {
    const b = button(15);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('pin'), says: ['GPIO 22'], repairs: 1 });
    clean(button(29).set('computer', { senseGpio: 5 }), RULE);
  });

  // Calculated: 3.135 V x 33 k/(33 k + 10.5 k) = 2.38 V; with 22 kΩ 1.84 V, less than 2.0 V.
  it('10 kΩ to 3.3 V beat the pull-down, 22 kΩ do not', () => {
    clean(pulled(10_000), RULE);
    const b = pulled(22_000);
    flagged(b, RULE, { level: 'advice', subject: b.wireId('pin'), figures: { 'rests at': 1.84 } });
  });

  it('other buttons are read only once their program has set the pull', () => {
    clean(button(15).set('computer', { senseGpio: 16 }), RULE);
  });

  it('has nothing to say of the key sensor', () => {
    quiet(bench(), RULE);
  });
});
