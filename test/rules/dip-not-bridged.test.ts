import { describe, expect, it } from 'vitest';
import { bridgeF } from '../../src/rules/crankDip.ts';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { onIgnition, straight, withStore } from './plansSense.ts';

const RULE = 'dip-not-bridged';

/** A converter that wants 7.6 V behind a series diode: the plateau of level I is enough for it, the dip is not. */
const wants = (farad: number): Bench =>
  bench().set('converter', { stopV: 7.6, startV: 8 }).set('guard', { type: 'schottky', dropV: 0.3, reverseV: 200 }).set('bulk', { farad });

describe('capacitance that bridges (worked by hand)', () => {
  it('18 W, 15 ms, from 11.5 V to 7 V: 6490 µF', () => {
    expect(bridgeF(18, 0.015, 11.5, 7) * 1e6).toBeCloseTo(6486, 0);
  });

  it('70 ms take 70 / 15 as much', () => {
    expect(bridgeF(18, 0.07, 11.5, 7) / bridgeF(18, 0.015, 11.5, 7)).toBeCloseTo(70 / 15, 6);
  });
});

describe('not enough store for the dip it must bridge', () => {
  it('6.7 V are there even in the dip of level I', () => clean(bench(), RULE));

  it('7.6 V are not: 70 ms (5 + 15 + 50) of fall, dip and rise at 7.4 W from 9.97 V', () => {
    const b = wants(2200e-6);
    flagged(b, RULE, {
      level: 'fault',
      subject: b.id('converter'),
      figures: {
        'needed at the input': 7.6,
        'arrives in the dip': 7.39,
        'capacitance needed': (2 * 7.4 * 0.07) / (9.97 ** 2 - 7.6 ** 2),
        // 20 % tolerance, 20 % less at -30 °C
        'capacitance sure': 2200e-6 * 0.8 * 0.8,
      },
      says: ['level I', '70 ms'],
      repairs: 1,
    });
  });

  it('a low-power board takes 2.2 W: a capacitor of a size that can be had is offered', () => {
    const b = wants(2200e-6).set('computer', { board: 'low-power' }).set('converter', { stopV: 7.8 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), repairs: 2 });
    expect(repairsOf(b, RULE)[0]!.title).toMatch(/^Fit 15000 µF at /);
  });

  it('24 900 µF of 64 % are 38 900 µF printed: 33 000 µF are too few, 47 000 µF do', () => {
    const b = wants(0.033);
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'capacitance sure': 0.0211 } });
    clean(wants(0.047), RULE);
  });

  it('behind a transistor guard any capacitor runs back into the starter', () => {
    const b = bench().set('converter', { stopV: 7.8, startV: 8 }).set('bulk', { farad: 0.1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), says: ['runs back into the starter'] });
  });

  it('no capacitor gets over the plateau of level II: 5.5 V for 10 s', () => {
    const b = straight('30', 'level II', { dipLevel: 'II' });
    const f = flagged(b, RULE, { level: 'fault', subject: b.id('converter'), says: ['10 s', 'no capacitor'] });
    expect(f.figures[0]!.value).toBeLessThan(5.5);
  });

  it('a display alone may go dark for a second: advice', () => {
    const b = wants(2200e-6)
      .without('computer', 'opto', 'pull', 'reverse', 'sense')
      .part('display', 'touch-display', 'seat', { size: '10' })
      .wire('converter.out', 'display.5v', { lengthM: 0.3 })
      .wire('display.0v', 'converter.0v', { lengthM: 0.3 });
    flagged(b.set('converter', { stopV: 7.7 }), RULE, { level: 'advice', subject: b.id('converter') });
  });

  it('a store carries it through all of a start', () => {
    clean(withStore('store at II', { dipLevel: 'II' }), RULE);
    clean(withStore('store at II', { dipLevel: 'II' }), 'converter-starves');
  });

  it('a line that is dead while starting has no dip', () => {
    const b = onIgnition().part('feed75', 'feed-75', 'dash', {}, { owner: 'vehicle' }).cut('tap').wire('feed75.out', 'fuse.1', { lengthM: 0.1 });
    quiet(b, RULE);
  });
});
