import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { straight } from './plansSense.ts';

const RULE = 'broken-sense-reads-on';

/** The key sensed over a divider, 47 kΩ over 10 kΩ, on GPIO 16 (pin 36), the computer on permanent 30 for ever. */
function divided(mode: 'in' | 'in-up' | 'in-down', lower = true, b: Bench = straight('30', 'divider', { batteryAh: 60 })): Bench {
  b.part('feed15', 'feed-15', 'dash', { donorFuseRead: true, donorLoadMeasured: true, proven: true }, { owner: 'vehicle' })
    .part('senseFuse', 'blade-fuse', 'dash', { ratingA: 1 })
    .part('upper', 'resistor', 'seat', { ohm: 47_000 })
    .set('computer', { senseGpio: 16, senseActive: 'high-when-on', gpio16Mode: mode })
    .wire('battery.+', 'feed15.in', { owner: 'vehicle' })
    .wire('feed15.out', 'senseFuse.1', { lengthM: 0.12 })
    .wire('senseFuse.2', 'upper.1', { lengthM: 2.2 })
    .wire('upper.2', 'computer.36', { lengthM: 0.2 }, 'pin');
  if (lower)
    b.part('lower', 'resistor', 'seat', { ohm: 10_000 }).wire('lower.1', 'upper.2', { lengthM: 0.05 }).wire('lower.2', 'computer.34', { lengthM: 0.2 });
  return b;
}

describe('a broken sense wire reads as key on', () => {
  it('an optocoupler to ground goes dark, and the pin high: key off', () => {
    clean(bench(), RULE);
  });

  it('a divider falls to 0 V without its line: key off', () => {
    clean(divided('in'), RULE);
  });

  it('a pin pulled up inside that takes high for key on runs for ever', () => {
    const b = divided('in-up', false);
    const f = flagged(b, RULE, { level: 'advice', subject: b.id('computer'), says: ['goes high', 'h the engine'], repairs: 1 });
    // 60 Ah x 0.4 at what it draws: 24 Ah.
    const [amp, hours] = f.figures.map((x) => x.value);
    if (Math.abs(amp! * hours! - 24) > 0.1) throw new Error(`${amp} A for ${hours} h`);
  });

  it('pulled down inside it stops', () => {
    clean(divided('in-down', false), RULE);
  });

  it('what opens by itself ends the run whatever the pin says', () => {
    clean(bench().set('computer', { senseActive: 'high-when-on' }), RULE);
  });

  it('a pin with no pull at all is another matter', () => {
    quiet(divided('in', false), RULE);
  });
});
