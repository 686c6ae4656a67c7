import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, fused, ground } from './plans.ts';
import { withCutout, withLatch } from './plansSense.ts';

const RULE = 'no-battery-guard';

/** A display of so many amps on the permanent feed, behind a linear regulator that takes 4.2 mA itself. */
function recorder(amp: number): Bench {
  return fused('recorder')
    .part('regulator', 'linear-regulator', 'dash')
    .part('screen', 'touch-display', 'dash', { typA: amp, peakA: amp })
    .wire('fuse.2', 'regulator.in', { lengthM: 1 }, 'supply')
    .wire('regulator.gnd', 'ground.31', { lengthM: 1 })
    .wire('regulator.out', 'screen.5v', { lengthM: 0.3 })
    .wire('screen.0v', 'regulator.gnd', { lengthM: 0.3 });
}

describe('nothing guards the battery against a load left alone', () => {
  it('a build that lets go', () => {
    clean(bench(), RULE);
  });

  it('a recorder on permanent 30', () => {
    const b = recorder(0.3);
    flagged(b, RULE, { level: 'fault', subject: b.id('regulator'), figures: { 'left running': 0.3042 }, says: ['feed30', '0.30 A'], repairs: 1 });
  });

  it('the same behind a cut-out of 12.0 V and 60 s', () => {
    const b = recorder(0.3)
      .into('supply', 'cutout', 'low-voltage-cutout', ['in', 'out'], { warns: false, cutV: 12, delayS: 60 })
      .wire('cutout.gnd', 'ground.31');
    clean(b, RULE);
  });

  it('just either side of 50 mA', () => {
    clean(recorder(0.045), RULE);
    const b = recorder(0.047);
    flagged(b, RULE, { level: 'fault', subject: b.id('regulator'), repairs: 1 });
  });

  it('a latch that may hold for hours, and one that may hold for less than one', () => {
    // The least of 7200 s ±30 % is 5040 s, of 5000 s it is 3500 s: one hour lies between.
    const b = withLatch().set('latch', { backstopS: 7200 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { for: 5040 }, says: ['1.4 h'], repairs: 1 });
    clean(withLatch().set('latch', { backstopS: 5000 }), RULE);
  });

  it('a cut-out set too low, too quick, or to join again too early', () => {
    clean(withCutout(), RULE);
    const low = withCutout().set('cutout', { cutV: 11.7 });
    flagged(low, RULE, { level: 'fault', subject: low.id('cutout'), says: ['11.7 V'], repairs: 1 });
    const quick = withCutout().set('cutout', { delayS: 29 });
    flagged(quick, RULE, { level: 'fault', subject: quick.id('cutout'), says: ['29 s'], repairs: 1 });
    const back = withCutout().set('cutout', { reconnectV: 12.7 });
    flagged(back, RULE, { level: 'advice', subject: back.id('cutout'), says: ['12.7 V'], repairs: 1 });
  });

  it('a 24 V vehicle asks for twice the volts', () => {
    const b = withCutout('cut-out 24', { systemV: 24 });
    flagged(b, RULE, { level: 'fault', subject: b.id('cutout'), says: ['11.8 V'], repairs: 1 });
    clean(withCutout('cut-out 24', { systemV: 24 }).set('cutout', { nominalV: 24, cutV: 23.6, warnV: 24.4, reconnectV: 25.6 }), RULE);
  });

  it('has nothing to say where nothing hangs on the permanent feed', () => {
    quiet(ground(), RULE);
  });
});
