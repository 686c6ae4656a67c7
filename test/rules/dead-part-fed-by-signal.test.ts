import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'dead-part-fed-by-signal';

describe('a part that is off is fed through its signal leads', () => {
  it('sensor and computer on one supply', () => {
    clean(bench(), RULE);
  });

  /** A receiver with 3.3 V levels on a converter of its own that is always live, its TX at RX of the computer over some ohms. */
  const receiver = (ohm: number) => {
    const b = bench()
      .set('computer', { console: false, gpio15Mode: 'serial' })
      .part('other', 'step-down', 'seat')
      .part('receiver', 'serial-device', 'seat')
      .wire('fuse.2', 'other.in', { lengthM: 2 })
      .wire('other.gnd', 'converter.gnd', { lengthM: 0.2 })
      .wire('other.out', 'receiver.+', { lengthM: 0.2 })
      .wire('receiver.-', 'computer.39', { lengthM: 0.2 });
    if (ohm === 0) return b.wire('receiver.tx', 'computer.10', { lengthM: 0.2 }, 'rx');
    return b.part('r', 'resistor', 'seat', { ohm }).wire('receiver.tx', 'r.1', { lengthM: 0.2 }).wire('r.2', 'computer.10', { lengthM: 0.05 }, 'rx');
  };

  it('a receiver that stays on pushes its high level into the dead computer', () => {
    const b = receiver(0);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('rx'), says: ['GPIO 15'], repairs: 1 });
  });

  it('some kilohms in the line keep it below half a milliamp', () => {
    // (3.3 V - about 0.6 V) / 0.5 mA = 5.4 kΩ.
    clean(receiver(6800), RULE);
    const b = receiver(3300);
    flagged(b, RULE, { level: 'fault', subject: b.wireId('rx'), repairs: 1 });
  });

  const display = (alwaysOn: boolean) => {
    const b = bench().part('display', 'touch-display', 'desk').wire('computer.video', 'display.video', { lengthM: 1 });
    if (!alwaysOn) return b.wire('converter.out', 'display.5v', { lengthM: 1 }).wire('display.0v', 'converter.0v', { lengthM: 1 });
    return b
      .part('other', 'step-down', 'seat')
      .wire('fuse.2', 'other.in', { lengthM: 2 })
      .wire('other.gnd', 'converter.gnd', { lengthM: 0.2 })
      .wire('other.out', 'display.5v', { lengthM: 1 })
      .wire('display.0v', 'other.0v', { lengthM: 1 });
  };

  it('a display that stays on while the computer is off', () => {
    clean(display(false), RULE);
    const b = display(true);
    flagged(b, RULE, { level: 'fault', subject: b.id('display'), says: ['picture'] });
  });

  it('has nothing to say without a computer', () => {
    quiet(ground(), RULE);
  });
});
