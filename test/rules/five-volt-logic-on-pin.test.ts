import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'five-volt-logic-on-pin';
/** A clock on the two-wire bus, fed from there. */
const clock = (supply: string, settings: Record<string, string> = {}) =>
  bench()
    .set('computer', { i2c: true, gpio2Mode: 'bus', gpio3Mode: 'bus' })
    .part('clock', 'bus-device', 'seat', settings)
    .wire(supply, 'clock.+', { lengthM: 0.1 })
    .wire('clock.-', 'computer.39', { lengthM: 0.1 })
    .wire('clock.sda', 'computer.3', { lengthM: 0.1 })
    .wire('clock.scl', 'computer.5', { lengthM: 0.1 });

describe('a 5 V part talks to a 3.3 V pin', () => {
  it('a clock fed from 3.3 V', () => {
    clean(clock('computer.17'), RULE);
  });

  it('fed from 5 V its lines are 5 V lines', () => {
    const b = clock('converter.out');
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.id('clock'),
      figures: { 'lines are high at': 5.12, 'pin stands': 3.6 },
      says: ['GPIO 2', 'GPIO 3'],
      repairs: 2,
    });
  });

  it('unless its board shifts them', () => {
    clean(clock('converter.out', { level: '3v3' }), RULE);
  });

  const receiver = (levels: string, ohm = 0) => {
    const b = bench()
      .set('computer', { console: false, gpio15Mode: 'serial' })
      .part('receiver', 'serial-device', 'seat', { levels })
      .wire('converter.out', 'receiver.+', { lengthM: 0.1 })
      .wire('receiver.-', 'computer.39', { lengthM: 0.1 });
    if (ohm === 0) return b.wire('receiver.tx', 'computer.10', { lengthM: 0.1 }, 'rx');
    return b
      .part('top', 'resistor', 'seat', { ohm })
      .part('low', 'resistor', 'seat', { ohm: 2000 })
      .wire('receiver.tx', 'top.1', { lengthM: 0.1 })
      .wire('top.2', 'computer.10', { lengthM: 0.1 }, 'rx')
      .wire('low.1', 'top.2', { lengthM: 0.05 })
      .wire('low.2', 'computer.34', { lengthM: 0.05 });
  };

  it('a receiver with 5 V levels, and one with 3.3 V levels', () => {
    const b = receiver('5v');
    flagged(b, RULE, { level: 'hazard', subject: b.id('receiver'), repairs: 1 });
    clean(receiver('3v3'), RULE);
  });

  // Worked: 5 V + 5 % (USB and header rails, read), resistors of 5 %: 1.2 kΩ over 2 kΩ leave 3.40 V, 1 kΩ over 2 kΩ 3.61 V of 3.6 V.
  it('behind a divider of 1.2 kΩ over 2 kΩ, and one of 1 kΩ that divides just too little', () => {
    clean(receiver('5v', 1200), RULE);
    const b = receiver('5v', 1000);
    flagged(b, RULE, { level: 'hazard', subject: b.id('receiver'), figures: { 'at the pin': 3.61 }, says: ['3.61 V'], repairs: 1 });
    const small = receiver('5v', 560);
    flagged(small, RULE, { level: 'hazard', subject: small.id('receiver'), figures: { 'at the pin': 4.19 }, repairs: 1 });
  });

  it('has nothing to say without one', () => {
    quiet(bench(), RULE);
  });
});
