import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench } from './plans.ts';
import { onIgnition, withStore } from './plansSense.ts';

const RULE = 'empty-store-like-short';
/** The limiter's own tolerance. */
const LIMIT_TOL = 0.1;

/** 25 F on the converter's 5 V, with or without a resistor. */
function onFive(resistor?: { readonly ohm: number; readonly ratedW: number }) {
  const b = onIgnition()
    .set('converter', { setV: 5.1, limitMinA: 3.4, limitMaxA: 4, ratedA: 3 })
    .part('store', 'capacitor', 'seat', { farad: 25, ratedV: 6.3, esrOhm: 0.01 })
    .wire('store.-', 'converter.0v', { lengthM: 0.1 });
  if (!resistor) return b.wire('store.+', 'converter.out', { lengthM: 0.1 });
  return b.part('r', 'resistor', 'seat', resistor).wire('store.+', 'r.1', { lengthM: 0.1 }).wire('r.2', 'converter.out', { lengthM: 0.1 });
}

describe('empty supercapacitor looks like a short', () => {
  it('25 F to 5.1 V at a limit of 3.4 A: 37.5 s without 5 V', () => {
    const b = onFive();
    flagged(b, RULE, { level: 'fault', subject: b.id('store'), figures: { 'filling time': 37.5 }, says: ['37.5 s', '3.4 A'], repairs: 1 });
  });

  it('over 10 Ω it fills slowly: 5.1² / 20 = 1.3 W, too much for a quarter watt, nothing for 2 W', () => {
    const b = onFive({ ohm: 10, ratedW: 0.25 });
    flagged(b, RULE, { level: 'fault', subject: b.id('store'), figures: { 'heat while filling': 1.3, allowed: 0.25 } });
    clean(onFive({ ohm: 10, ratedW: 2 }), RULE);
  });

  it('a charge limiter fills it slowly: 16.7 F to its full volts at the least of its current, until then it holds nothing', () => {
    const b = withStore();
    const limiter = b.plan.parts[b.id('limiter')]!.settings;
    const fullV = Number(limiter.fullV ?? 15);
    flagged(b, RULE, {
      level: 'advice',
      subject: b.id('limiter'),
      figures: { 'filling time': ((100 / 6) * fullV) / (1 - LIMIT_TOL) },
      says: ['minutes to fill'],
    });
  });

  it('a small store is full within a minute', () => clean(withStore().set('store', { cellFarad: 10 }), RULE));

  it('straight on the vehicle’s supply: 14.4 V over the source and six cells of 10 mΩ', () => {
    const b = withStore().cut('charge').wire('storeFuse.2', 'converter.in', { lengthM: 0.1 });
    clean(b, RULE);
    const bare = withStore().without('limiter').wire('guard.out', 'converter.in', { lengthM: 0.1 }).wire('storeFuse.2', 'converter.in', { lengthM: 0.1 });
    flagged(bare, RULE, { level: 'fault', subject: bare.id('store'), figures: { 'takes at first': 14.4 / 0.11 }, says: ['Nothing limits'], repairs: 1 });
  });

  it('no store, nothing to say', () => quiet(bench(), RULE));
});
