import { describe, it } from 'vitest';
import { lamp } from '../../src/rules/book/examples/vehicle-voltage-at-pin.ts';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'vehicle-voltage-at-pin';

describe('vehicle voltage straight into a pin', () => {
  it('an optocoupler between', () => {
    clean(bench(), RULE);
  });

  it('the reversing lamp on GPIO 17: up to 16 V', () => {
    const b = lamp().wire('lampFuse.2', 'computer.11', {}, 'straight');
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.wireId('straight'),
      figures: { 'can reach the pin': 16 },
      says: ['lamp can put', 'GPIO 17', '3.6 V'],
      repairs: 1,
    });
  });

  it('over 2.2 kΩ it still takes what the line gives; 10 kΩ and more is another rule’s', () => {
    const b = lamp().part('small', 'resistor', 'seat', { ohm: 2200 }).wire('lampFuse.2', 'small.1').wire('small.2', 'computer.11', {}, 'pin17');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin17'), says: ['2.2 kΩ'] });
    const near = lamp().part('small', 'resistor', 'seat', { ohm: 9100 }).wire('lampFuse.2', 'small.1').wire('small.2', 'computer.11', {}, 'pin17');
    flagged(near, RULE, { level: 'hazard', subject: near.wireId('pin17') });
    const ten = lamp().part('large', 'resistor', 'seat', { ohm: 10_000 }).wire('lampFuse.2', 'large.1').wire('large.2', 'computer.11', {}, 'pin17');
    clean(ten, RULE);
    flagged(ten, 'pin-over-voltage', { level: 'hazard', subject: ten.wireId('pin17') });
    clean(lamp().part('large', 'resistor', 'seat', { ohm: 33_000 }).wire('lampFuse.2', 'large.1').wire('large.2', 'computer.11', {}, 'pin17'), RULE);
  });

  it('a divider that keeps it below 3.6 V at 16 V', () => {
    // 16 V × 1050 / (1050 + 6.8 kΩ × 0.95) = 2.2 V.
    const b = lamp()
      .part('top', 'resistor', 'seat', { ohm: 6800 })
      .part('low', 'resistor', 'seat', { ohm: 1000 })
      .wire('lampFuse.2', 'top.1')
      .wire('top.2', 'computer.11')
      .wire('low.1', 'top.2')
      .wire('low.2', 'computer.39');
    clean(b, RULE);
  });

  /** Two resistors between the converter's 5.12 V (+ 5 %) and 0 V, their middle at GPIO 5. */
  const divided = (top: number, low: number) =>
    bench()
      .part('top', 'resistor', 'seat', { ohm: top })
      .part('low', 'resistor', 'seat', { ohm: low })
      .wire('converter.out', 'top.1')
      .wire('top.2', 'computer.29', {}, 'pin5')
      .wire('low.1', 'top.2')
      .wire('low.2', 'computer.39');

  it('a divider that leaves too much is told by what it leaves: 5.376 V × 2100 / (2100 + 950) = 3.70 V', () => {
    const b = divided(1000, 2000);
    const f = flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5'), figures: { 'can reach the pin': 3.7 }, says: ['3.7 V', 'divided'], repairs: 1 });
    if (/key sensor/.test(f.todo)) throw new Error(f.todo);
    clean(divided(1200, 2000), RULE);
  });

  it('a button to 5 V', () => {
    const b = bench().part('button', 'push-button', 'seat').wire('button.1', 'computer.29', {}, 'pin5').wire('button.2', 'converter.out');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5'), figures: { 'can reach the pin': 5.38 }, repairs: 1 });
  });

  it('the low end of a relay coil whose other end is at 12 V', () => {
    const b = bench().part('k', 'relay', 'seat', { suppression: 'diode' }).wire('relay.87', 'k.86').wire('k.85', 'computer.29', {}, 'pin5');
    flagged(b, RULE, { level: 'hazard', subject: b.wireId('pin5') });
  });

  it('an LED from 5 V leaves less than 3.6 V at the pin', () => {
    // 5.12 V × 1.05 − 1.8 V = 3.58 V.
    const b = bench()
      .part('led', 'led', 'seat')
      .part('r', 'resistor', 'seat', { ohm: 680 })
      .wire('converter.out', 'r.1')
      .wire('r.2', 'led.A')
      .wire('led.K', 'computer.29')
      .set('computer', { gpio5Mode: 'out' });
    clean(b, RULE);
  });

  it('has nothing to say without a computer', () => {
    quiet(ground(), RULE);
  });
});
