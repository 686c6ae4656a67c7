import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench } from './plans.ts';
import { withLampSense } from './plansSense.ts';

const RULE = 'dimmer-line-misused';
/** A display on the converter, and a fused lead of the instrument lamps. */
const lamps = (): Bench =>
  bench()
    .part('lamps', 'feed-58', 'dash', { proven: true }, { owner: 'vehicle' })
    .part('lampFuse', 'blade-fuse', 'dash', { ratingA: 1 })
    .part('screen', 'touch-display', 'dash')
    .wire('lamps.out', 'lampFuse.1', { lengthM: 0.1 })
    .wire('converter.out', 'screen.5v', { lengthM: 2.5 })
    .wire('screen.0v', 'converter.0v', { lengthM: 2.5 });
/** 10 kΩ from the line and 4.7 kΩ to 0 V at the brightness input, with a capacitor. */
const filtered = (farad: number): Bench => {
  const b = lamps()
    .part('top', 'resistor', 'dash', { ohm: 27_000 })
    .part('low', 'resistor', 'dash', { ohm: 6800 })
    .wire('lampFuse.2', 'top.1')
    .wire('top.2', 'screen.bl')
    .wire('low.1', 'top.2')
    .wire('low.2', 'screen.0v');
  return farad === 0 ? b : b.part('c', 'capacitor', 'dash', { farad, ratedV: 50 }).wire('c.+', 'top.2').wire('c.-', 'screen.0v');
};

describe('instrument lamp line misused', () => {
  it('12 V straight to a brightness input', () => {
    const b = lamps().wire('lampFuse.2', 'screen.bl');
    flagged(b, RULE, { level: 'fault', subject: b.id('screen'), says: ['brightness input'] });
  });

  // Ripple 1 / (4 f tau): 5 % of 100 Hz ask for 50 ms. 27 kΩ × 2.2 µF = 59 ms, × 1 µF = 27 ms.
  it('divided and filtered passes, unfiltered flickers', () => {
    clean(filtered(2.2e-6), RULE);
    const b = filtered(1e-6);
    flagged(b, RULE, { level: 'fault', subject: b.id('screen'), figures: { filter: 0.027 }, says: ['flickers'] });
    const bare = filtered(0);
    flagged(bare, RULE, { level: 'fault', subject: bare.id('screen'), says: ['unfiltered'] });
  });

  it('as the supply of a camera', () => {
    const b = lamps().part('camera', 'camera', 'dash').wire('lampFuse.2', 'camera.+').wire('camera.-', 'ground.31').wire('camera.video', 'screen.video');
    flagged(b, RULE, { level: 'fault', subject: b.id('lamps'), says: ['dimmed by pulses'] });
  });

  it('over an optocoupler it tells day from night', () => {
    clean(withLampSense('58'), RULE);
  });

  it('no lamp line, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
