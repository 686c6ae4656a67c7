import { describe, expect, it } from 'vitest';
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

  // 0.5 mm² at 60 °C: 45.1 mΩ/m (IEC 60228, 0.393 %/K), 2.5 m with its two crimps: about 0.12 Ω.
  it('just either side of 0.3 V', () => {
    const figure = (ohm: number) => flagged(heated(ohm), RULE, { level: 'fault', subject: heated(ohm).id('opto') }).figures[0]!.value;
    expect(figure(4.9)).toBeGreaterThan(0.3);
    expect(figure(4.9)).toBeLessThan(0.32);
    clean(heated(5.1), RULE);
  });

  it('just either side of 1 A, over a wire long enough', () => {
    const long = (ohm: number) => heated(ohm).cut('shared').wire('g1.s', 'ground.31', { lengthM: 9, areaMm2: 0.5 }, 'shared');
    const b = long(14.8);
    flagged(b, RULE, { level: 'fault', subject: b.id('opto') });
    clean(long(16.5), RULE);
  });

  it('volts that the LED’s own diode or resistor loses are no lift of the ground', () => {
    const own = heated(10)
      .cut('led-')
      .part('low', 'resistor', 'desk', { ohm: 150 })
      .wire('opto.K', 'low.1', { lengthM: 0.05 })
      .wire('low.2', 'g1.s', { lengthM: 0.3 });
    clean(own, RULE);
    const b = heated(3.5)
      .cut('led-')
      .part('low', 'resistor', 'desk', { ohm: 150 })
      .wire('opto.K', 'low.1', { lengthM: 0.05 })
      .wire('low.2', 'g1.s', { lengthM: 0.3 });
    const finding = flagged(b, RULE, { level: 'fault', subject: b.id('opto'), repairs: 1 });
    expect(finding.figures[0]!.value).toBeGreaterThan(0.35);
    expect(finding.figures[0]!.value).toBeLessThan(0.6);
  });

  it('names the wire on the way home, not another that ends at the same joint', () => {
    const b = heated(3.5)
      .cut('shared')
      .part('plug', 'connector', 'desk', { ways: 2 })
      .wire('g1.s', 'ground.31', { lengthM: 5, areaMm2: 0.5 }, 'one')
      .wire('g1.s', 'ground.31', { lengthM: 5, areaMm2: 0.5 }, 'two');
    const finding = flagged(b, RULE, { level: 'fault', subject: b.id('opto') });
    expect([b.wireId('one'), b.wireId('two')]).toContain(finding.related[0]!.id);
  });

  it('has nothing to say without a sensor', () => {
    quiet(ground(), RULE);
  });
});
