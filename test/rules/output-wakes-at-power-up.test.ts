import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';

const RULE = 'output-wakes-at-power-up';
/** A relay that a pin switches over a low-side driver. */
const driven = (pin: number, driver: Record<string, string | number> = {}): Bench =>
  bench()
    .part('k', 'relay', 'seat', { suppression: 'diode' })
    .part('driver', 'low-side-driver', 'seat', driver)
    .wire('relay.87', 'k.86', { lengthM: 0.3 })
    .wire('k.85', 'driver.out', { lengthM: 0.1 })
    .wire('driver.gnd', 'converter.gnd', { lengthM: 0.1 })
    .wire(`computer.${pin}`, 'driver.in', { lengthM: 0.2 }, 'pin');

describe('an output comes on by itself at power-up', () => {
  // Board maker's pin pages: GPIO 20 starts pulled down, GPIO 5 up.
  it('GPIO 20 starts low', () => {
    clean(driven(38), RULE);
  });

  it('GPIO 5 starts high: 3.465 V x 100 k/(100 k + 33 k) = 2.6 V', () => {
    const b = driven(29);
    flagged(b, RULE, { level: 'fault', subject: b.id('driver'), figures: { 'at power-on': 2.6 }, says: ['GPIO 5', '30 s'], repairs: 2 });
  });

  // 0.5 V is reached at R = 33 k x 0.5/2.965 = 5.57 kΩ.
  it('either side of the resistor that keeps it off', () => {
    clean(driven(29, { pullDownOhm: 5100 }), RULE);
    const b = driven(29, { pullDownOhm: 6200 });
    flagged(b, RULE, { level: 'fault', subject: b.id('driver'), repairs: 1 });
  });

  it('has nothing to say without a driver', () => {
    quiet(bench(), RULE);
  });
});
