import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { type Bench, bench, fused } from './plans.ts';
import { withLampSense } from './plansSense.ts';

const RULE = 'vehicle-line-kept-up';

/** A resistor from the fused permanent feed to a lamp line. */
function pulled(ohm: number): Bench {
  return fused('pulled up')
    .part('lampFeed', 'feed-58', 'dash', { bulbCheck: 'no' }, { owner: 'vehicle' })
    .part('pull', 'resistor', 'dash', { ohm })
    .wire('battery.+', 'lampFeed.in', { owner: 'vehicle' })
    .wire('fuse.2', 'pull.1', { lengthM: 0.3 })
    .wire('pull.2', 'lampFeed.out', { lengthM: 0.3 }, 'ours');
}

describe('our wiring keeps the vehicle awake', () => {
  it('lines that are sensed with optocouplers fall with the key', () => {
    clean(bench(), RULE);
  });

  it('4.7 kΩ from 12 V on a lamp line hold it up while the vehicle sleeps', () => {
    const b = pulled(4700);
    flagged(b, RULE, { level: 'fault', subject: b.id('lampFeed'), figures: { 'held at': 12.9 }, says: ['stays awake'], repairs: 1 });
  });

  it('just either side of 1 V: a divider of 10 kΩ over 910 Ω or 750 Ω', () => {
    const divided = (ohm: number) =>
      pulled(10_000).part('down', 'resistor', 'dash', { ohm }).wire('down.1', 'lampFeed.out', { lengthM: 0.1 }).wire('down.2', 'ground.31', { lengthM: 0.3 });
    // 12.9 V x 910 / 10 910 = 1.08 V; x 750 / 10 750 = 0.90 V.
    const b = divided(910);
    flagged(b, RULE, { level: 'fault', subject: b.id('lampFeed'), figures: { 'held at': 1.076 } });
    clean(divided(750), RULE);
  });

  it('more than 5 mA beside a bulb that the vehicle checks', () => {
    const b = withLampSense('reverse').set('lampFeed', { bulbCheck: 'yes' }).set('lampSense', { ohm: 2200 });
    flagged(b, RULE, { level: 'advice', subject: b.id('lampFeed'), says: ['bulb'] });
    clean(withLampSense('reverse').set('lampFeed', { bulbCheck: 'yes' }).set('lampSense', { ohm: 4700 }), RULE);
    clean(withLampSense('reverse').set('lampFeed', { bulbCheck: 'no' }).set('lampSense', { ohm: 2200 }), RULE);
    unsure(withLampSense('reverse').set('lampSense', { ohm: 2200 }), RULE, 'checks the bulb');
  });

  it('has nothing to say of a line that stays live by itself', () => {
    quiet(fused(), RULE);
  });
});
