import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'sense-ground-loaded';
/** The LED returns over a splice that a heater of so many ohms uses too; 10 m of 0.5 mm² to the body. */
const heated = (ohm: number) =>
  bench()
    .cut('led-')
    .part('g1', 'splice', 'desk')
    .part('heaterFuse', 'blade-fuse', 'dash', { ratingA: 7.5 })
    .part('heater', 'resistor', 'desk', { ohm, ratedW: 50 })
    .wire('feed15.out', 'heaterFuse.1', { lengthM: 0.1 })
    .wire('heaterFuse.2', 'heater.1', { lengthM: 2 })
    .wire('heater.2', 'g1.s', { lengthM: 0.1 })
    .wire('opto.K', 'g1.s', { lengthM: 0.3 }, 'led-')
    .wire('g1.s', 'ground.31', { lengthM: 2.5, areaMm2: 0.5 }, 'shared');

describe('the sensor’s return lies on a loaded ground wire', () => {
  it('a return of its own', () => {
    clean(bench(), RULE);
  });

  // 39 mΩ/m of IEC 60228 at 20 °C, 2.5 m: about 0.1 Ω, with 4 A 0.4 V.
  it('4 A over 0.1 Ω lift it by 0.4 V', () => {
    const b = heated(3.5);
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), says: ['W'], repairs: 1 });
  });

  it('1.5 A over the same wire do not', () => {
    clean(heated(10), RULE);
  });

  it('has nothing to say without a sensor', () => {
    quiet(ground(), RULE);
  });
});
