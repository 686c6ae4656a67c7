import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'three-volt-pin-misused';

describe('3.3 V pin fed from outside, or asked for too much', () => {
  it('a pull-up and a position receiver of 40 mA', () => {
    clean(bench(), RULE);
    clean(
      bench().part('receiver', 'serial-device', 'seat').wire('computer.17', 'receiver.+', { lengthM: 0.2 }).wire('receiver.-', 'computer.39', { lengthM: 0.2 }),
      RULE,
    );
  });

  it('another 3.3 V supply joined to pin 17', () => {
    const b = bench()
      .part('other', 'step-down', 'seat', { setV: 3.3 })
      .wire('relay.87', 'other.in', { lengthM: 0.2 })
      .wire('other.gnd', 'converter.gnd', { lengthM: 0.2 })
      .wire('other.out', 'computer.17', { lengthM: 0.2 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), figures: { 'joined to it': 3.3 }, repairs: 1 });
  });

  it('5 V joined to it', () => {
    const b = bench().wire('converter.out', 'computer.17', { lengthM: 0.2 }, 'wrong');
    flagged(b, RULE, { level: 'hazard', subject: b.id('computer'), repairs: 1 });
  });

  // Cautious practice: 0.3 A. 3.3 V over 12 Ω are 0.28 A, over 10 Ω 0.33 A.
  const loaded = (ohm: number) =>
    bench()
      .part('load', 'resistor', 'seat', { ohm, ratedW: 5 })
      .wire('computer.17', 'load.1', { lengthM: 0.05 })
      .wire('load.2', 'computer.39', { lengthM: 0.05 });

  it('either side of 0.3 A', () => {
    clean(loaded(15), RULE);
    const b = loaded(8.2);
    flagged(b, RULE, { level: 'fault', subject: b.id('computer') });
  });

  it('has nothing to say without a wire on it', () => {
    quiet(ground(), RULE);
  });
});
