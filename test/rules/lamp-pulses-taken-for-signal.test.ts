import { describe, expect, it } from 'vitest';
import { clean, flagged, quiet, repairsOf } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { sensedOn, withLampSense } from './plansSense.ts';

const RULE = 'lamp-pulses-taken-for-signal';

/** A resistor into the pin's wire and a capacitor from the pin to 0 V. */
function filtered(b: Bench, ohm: number, farad: number): Bench {
  return b
    .into('lampPin', 'rf', 'resistor', ['1', '2'], { ohm })
    .part('cf', 'capacitor', 'seat', { farad, ratedV: 16, polarised: false })
    .wire('cf.+', 'rf.2', { lengthM: 0.05 })
    .wire('cf.-', 'computer.39', { lengthM: 0.05 });
}

describe('lamp test pulses or dimming taken for a signal', () => {
  it('reversing lamp, no filter: pulses of up to 5 ms (from memory) want 20 ms', () => {
    const b = withLampSense('reverse');
    flagged(b, RULE, { level: 'fault', subject: b.id('lampOpto'), figures: { waits: 0, 'should wait': 0.02 }, says: ['short pulses', '20 ms'], repairs: 2 });
  });

  it('a program that waits 50 ms, and the two sides of 20 ms', () => {
    clean(withLampSense('reverse').set('computer', { inputFilterS: 0.05 }), RULE);
    clean(withLampSense('reverse').set('computer', { inputFilterS: 0.02 }), RULE);
    const b = withLampSense('reverse').set('computer', { inputFilterS: 0.019 });
    flagged(b, RULE, { level: 'fault', subject: b.id('lampOpto'), figures: { waits: 0.019 }, repairs: 2 });
  });

  it('a resistor and a capacitor at the pin: 4.7 kΩ × 4.7 µF = 22 ms do, × 1 µF = 4.7 ms do not', () => {
    clean(filtered(withLampSense('reverse'), 4700, 4.7e-6), RULE);
    const b = filtered(withLampSense('reverse'), 4700, 1e-6);
    flagged(b, RULE, { level: 'fault', subject: b.id('lampOpto'), figures: { waits: 0.0047 }, repairs: 1 });
  });

  it('side lamps are dimmed at 80 Hz at the least: three periods are 37.5 ms, so 22 ms are too short and 10 µF are offered', () => {
    const b = filtered(withLampSense('58'), 4700, 4.7e-6);
    flagged(b, RULE, { level: 'fault', subject: b.id('lampOpto'), figures: { waits: 0.0221, 'should wait': 0.0375 }, says: ['dimmed'], repairs: 1 });
    expect(repairsOf(withLampSense('58'), RULE).map((r) => r.title)).toContain('Filter the pin with 4.7 kΩ and 10 µF');
    clean(withLampSense('58').set('computer', { inputFilterS: 0.05 }), RULE);
  });

  it('a divider in place of the optocoupler sees the same pulses', () => {
    const divided = (line: 'feed-reverse' | 'feed-15') =>
      bench()
        .part('lamp', line, 'dash', {}, { owner: 'vehicle' })
        .part('lampFuse', 'blade-fuse', 'dash', { ratingA: 1 })
        .part('top', 'resistor', 'seat', { ohm: 47_000 })
        .part('low', 'resistor', 'seat', { ohm: 10_000 })
        .wire('battery.+', 'lamp.in', { owner: 'vehicle' })
        .wire('lamp.out', 'lampFuse.1', { lengthM: 0.1 })
        .wire('lampFuse.2', 'top.1', { lengthM: 2.2 })
        .wire('top.2', 'computer.29', { lengthM: 0.2 }, 'pin5')
        .wire('low.1', 'top.2', { lengthM: 0.05 })
        .wire('low.2', 'computer.39', { lengthM: 0.1 });
    const b = divided('feed-reverse');
    flagged(b, RULE, { level: 'fault', subject: b.wireId('pin5'), figures: { waits: 0, 'should wait': 0.02 }, says: ['GPIO 5', 'short pulses'], repairs: 1 });
    clean(divided('feed-reverse').set('computer', { inputFilterS: 0.02 }), RULE);
    quiet(divided('feed-15'), RULE);
    // 47 kΩ beside 10 kΩ, both 5 % low, and 4.7 µF: 7.83 kΩ × 4.7 µF = 37 ms; 2.2 µF make 17 ms.
    const filled = (farad: number) =>
      divided('feed-reverse').part('c', 'capacitor', 'seat', { farad, ratedV: 16 }).wire('c.+', 'top.2').wire('c.-', 'computer.39');
    clean(filled(4.7e-6), RULE);
    const small = filled(2.2e-6);
    flagged(small, RULE, { level: 'fault', subject: small.wireId('pin5'), figures: { waits: 0.0172 }, repairs: 1 });
  });

  it('the pin that watches the key has a filter of its own', () => {
    clean(sensedOn('58'), RULE);
    const b = sensedOn('58').set('computer', { filterS: 0 });
    flagged(b, RULE, { level: 'fault', subject: b.id('opto'), repairs: 1 });
  });

  it('a person who wants longer is offered longer', () => {
    const b = withLampSense('reverse').threshold('lampFilterS', 0.2);
    expect(repairsOf(b, RULE).map((r) => r.title)).toContain('Let the program wait 200 ms before it believes an input');
  });

  it('ignition is no lamp', () => quiet(bench(), RULE));
});
