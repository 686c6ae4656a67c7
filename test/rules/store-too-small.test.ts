import { describe, expect, it } from 'vitest';
import { carryS } from '../../src/rules/storeHold.ts';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { bench, ground } from './plans.ts';
import { onIgnition, withStore } from './plansSense.ts';

const RULE = 'store-too-small';

describe('time that a store carries (worked by hand)', () => {
  it('25 F on 5.1 V itself, 70 % left, down to 4.86 V at 6 W: 17.5 × (26.01 − 23.62) / 12 = 3.5 s', () => {
    expect(carryS({ fullV: 5.1, leastV: 4.86, watt: 6, farad: 17.5, ohm: 0 })).toBeCloseTo(3.49, 2);
  });

  it('16.7 F at 13.5 V ahead of a converter down to 8 V, 6 W at 85 %: 97.7 s', () => {
    const s = carryS({ fullV: 13.5, leastV: 8, watt: 6 / 0.85, farad: 0.7 * 16.7, ohm: 0 });
    expect(Math.abs(s - 97.7)).toBeLessThan(0.5);
  });

  it('resistance takes volts off the top, and too much of it takes all', () => {
    expect(carryS({ fullV: 13.5, leastV: 8, watt: 8, farad: 11.69, ohm: 1 })).toBeCloseTo((11.69 * (12.5 ** 2 - 64)) / 16, 6);
    expect(carryS({ fullV: 8.5, leastV: 8, watt: 8, farad: 11.69, ohm: 1 })).toBe(0);
  });
});

describe('hold-up store too small', () => {
  it('six cells of 100 F, filled to 12.2 V at the least, last 80 s at 7 W; the stop needs 38.75 s', () => {
    clean(withStore(), RULE);
    clean(withStore(), 'power-gone-too-soon');
  });

  it('six cells of 25 F last a quarter of that, and larger cells are offered', () => {
    const b = withStore().set('store', { cellFarad: 25 });
    // 0.7 × 25 / 6 = 2.92 F, 12.24 V less 1.06 A × 0.12 Ω, down to 6.75 V at 7.15 W: 20.7 s.
    flagged(b, RULE, { level: 'fault', subject: b.id('store'), figures: { carries: 20.7, needed: 38.75, power: 7.15 }, says: ['21 s', '38.8 s'], repairs: 1 });
    quiet(b, 'power-gone-too-soon');
  });

  it('25 F straight on the 5 V: a third of a volt is all that it may fall', () => {
    const b = onIgnition()
      .part('store', 'capacitor', 'seat', { farad: 25, ratedV: 6.3, esrOhm: 0.01 })
      .wire('store.+', 'converter.out', { lengthM: 0.1 })
      .wire('store.-', 'converter.0v', { lengthM: 0.1 });
    const f = flagged(b, RULE, { level: 'fault', subject: b.id('store') });
    expect(f.figures[0]!.value).toBeLessThan(5);
    expect(f.todo).toContain('ahead of the converter');
  });

  it('a relay that holds long enough leaves nothing for the store to do', () => {
    const b = bench()
      .cut('toConverter', 'bulk+')
      .part('limiter', 'charge-limiter', 'seat')
      .part('store', 'store', 'seat', { cellFarad: 10 })
      .wire('guard.out', 'limiter.in')
      .wire('limiter.out', 'converter.in')
      .wire('bulk.+', 'converter.in')
      .wire('limiter.gnd', 'converter.gnd')
      .wire('store.+', 'limiter.store')
      .wire('store.-', 'converter.gnd');
    clean(b, RULE);
  });

  it('16 F beside the converter run back into the dead line through a transistor guard; a series diode keeps them', () => {
    const b = onIgnition()
      .part('store', 'capacitor', 'seat', { farad: 16, ratedV: 16, esrOhm: 0.01 })
      .wire('store.+', 'converter.in')
      .wire('store.-', 'converter.gnd');
    flagged(b, RULE, { level: 'fault', subject: b.id('store'), says: ['runs back into the vehicle'] });
    clean(b.set('guard', { type: 'schottky', dropV: 0.85, reverseV: 200 }), RULE);
  });

  it('a store that reaches no computer', () => {
    const b = ground()
      .part('computer', 'computer', 'seat')
      .part('store', 'store', 'seat')
      .wire('store.-', 'ground.31')
      .part('limiter', 'charge-limiter', 'seat')
      .wire('store.+', 'limiter.store');
    unsure(b, RULE, 'filled to');
  });
});
