import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'led-resistor-wrong';
const lamp = (ohm: number) =>
  bench()
    .part('led', 'led', 'dash')
    .part('r', 'resistor', 'dash', { ohm, ratedW: 0.25 })
    .wire('senseFuse.2', 'r.1', { lengthM: 0.1 })
    .wire('r.2', 'led.A', { lengthM: 0.1 })
    .wire('led.K', 'ground.31', { lengthM: 0.3 });

describe('LED without its resistor, or with the wrong one', () => {
  it('2.2 kΩ on 12 V: 6.5 to 6.8 mA', () => {
    clean(lamp(2200), RULE);
  });

  it('470 Ω: 14.2 V over 446.5 Ω are 31.8 mA, 0.45 W on 0.25 W', () => {
    const b = lamp(470);
    flagged(b, RULE, { level: 'fault', subject: b.id('led'), figures: { 'LED current': 31.8e-3, 'heat in the resistor': 0.4516 }, repairs: 1 });
  });

  it('no resistor', () => {
    const b = bench().part('led', 'led', 'dash').wire('senseFuse.2', 'led.A', { lengthM: 0.1 }).wire('led.K', 'ground.31', { lengthM: 0.3 });
    flagged(b, RULE, { level: 'fault', subject: b.id('led'), says: ['no resistor'], repairs: 1 });
  });

  it('the resistor may stand on either side', () => {
    const b = bench()
      .part('led', 'led', 'dash')
      .part('r', 'resistor', 'dash', { ohm: 2200 })
      .wire('senseFuse.2', 'led.A', { lengthM: 0.1 })
      .wire('led.K', 'r.1', { lengthM: 0.1 })
      .wire('r.2', 'ground.31', { lengthM: 0.3 });
    clean(b, RULE);
  });

  it('on a pin: 680 Ω from 3.3 V', () => {
    const b = bench()
      .part('led', 'led', 'desk')
      .part('r', 'resistor', 'desk', { ohm: 680 })
      .wire('computer.29', 'r.1')
      .wire('r.2', 'led.A')
      .wire('led.K', 'computer.39');
    clean(b, RULE);
  });

  it('has nothing to say without an LED', () => {
    quiet(ground(), RULE);
  });
});
