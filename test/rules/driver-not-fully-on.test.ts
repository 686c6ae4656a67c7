import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'driver-not-fully-on';
const driven = (driver: Record<string, string | number>, coilOhm = 90) =>
  bench()
    .part('k', 'relay', 'seat', { suppression: 'diode', coilOhm })
    .part('driver', 'low-side-driver', 'seat', driver)
    .wire('relay.87', 'k.86', { lengthM: 0.3 })
    .wire('k.85', 'driver.out', { lengthM: 0.1 })
    .wire('driver.gnd', 'converter.gnd', { lengthM: 0.1 })
    .wire('computer.11', 'driver.in', { lengthM: 0.2 }, 'pin');

describe('transistor not fully switched by 3.3 V', () => {
  it('resistance stated at 2.5 V', () => {
    clean(driven({}), RULE);
  });

  it('stated at 10 V, threshold 2 to 4 V', () => {
    const b = driven({ fullV: 10 });
    flagged(b, RULE, { level: 'fault', subject: b.id('driver'), figures: { 'fully on at': 10, 'a pin gives': 3 }, repairs: 1 });
  });

  it('either side of 3.0 V', () => {
    clean(driven({ fullV: 3 }), RULE);
    const b = driven({ fullV: 3.3 });
    flagged(b, RULE, { level: 'fault', subject: b.id('driver'), repairs: 1 });
  });

  // (2.6 - 0.75) V / 1 kΩ = 1.85 mA, times 20 = 37 mA. Coils at -30 °C: 16 V / (0.8 x R).
  it('bipolar over 1 kΩ: 37 mA, in order for 30 mA and not for 45 mA', () => {
    clean(driven({ type: 'bipolar' }, 600), RULE);
    const b = driven({ type: 'bipolar' }, 400);
    flagged(b, RULE, { level: 'fault', subject: b.id('driver'), figures: { 'is driven for': 0.037, 'has to carry': 0.0495 }, repairs: 1 });
  });

  it('has nothing to say without a driver', () => {
    quiet(bench(), RULE);
  });
});
