import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { bench } from './plans.ts';
import { keyDivider, withLampSense } from './plansSense.ts';

const RULE = 'off-line-not-at-zero';
const lamp = (lamps: string) => withLampSense('reverse').set('lampFeed', { lamps });

describe('a line that is off is not at zero', () => {
  it('a bulb takes what is left to nothing', () => {
    clean(lamp('bulb'), RULE);
  });

  // Calculated: (6 - 1) V / (1000 + 2090) Ω x 1.6 = 2.59 mA; (3.135 - 2.0 - 0.1) V / 10.5 kΩ = 0.0986 mA.
  it('6 V behind 1 kΩ light the sensor of an LED lamp', () => {
    const b = lamp('led');
    flagged(b, RULE, { level: 'fault', subject: b.id('lampOpto'), figures: { 'passes while off': 0.00259, 'moves the pin': 0.0000986 }, repairs: 2 });
  });

  /** A load of so many ohms from the line to ground: 6 V x R/(1000 + R) stay. */
  const loaded = (ohm: number) =>
    lamp('led')
      .part('load', 'resistor', 'dash', { ohm, ratedW: 5 })
      .wire('load.1', 'lampFuse.2', { lengthM: 0.05 })
      .wire('load.2', 'ground.31', { lengthM: 0.5 });

  it('180 Ω to ground leave 0.95 V, too little; 330 Ω leave 1.5 V', () => {
    clean(loaded(180), RULE);
    const b = loaded(330);
    flagged(b, RULE, { level: 'fault', subject: b.id('lampOpto') });
  });

  // Calculated: 6 V x 10.5/(10.5 + 0.95 x 27 + 1) kΩ = 1.70 V at a pin that reads low up to 0.8 V.
  it('a divider sees them too: 27 kΩ over 10 kΩ leave 1.7 V, which is neither on nor off', () => {
    const b = keyDivider('feed-58').set('key', { lamps: 'led' });
    flagged(b, RULE, {
      level: 'fault',
      subject: b.wireId('pin'),
      figures: { 'at the pin while off': 1.7, 'reads low up to': 0.8 },
      says: ['GPIO 16'],
      repairs: 1,
    });
    clean(keyDivider('feed-58').set('key', { lamps: 'bulb' }), RULE);
    unsure(keyDivider('feed-58'), RULE, 'bulbs or LED');
    // A load of 180 Ω to ground leaves 6 V x 189/(1000 + 189) = 0.95 V on the line, 0.28 V at the pin.
    clean(
      keyDivider('feed-58')
        .set('key', { lamps: 'led' })
        .part('load', 'resistor', 'dash', { ohm: 180, ratedW: 5 })
        .wire('load.1', 'keyFuse.2', { lengthM: 0.05 })
        .wire('load.2', 'ground.31', { lengthM: 0.5 }),
      RULE,
    );
  });

  it('asks what the lamps are', () => {
    unsure(withLampSense('reverse'), RULE, 'bulbs or LED');
  });

  it('has nothing to say of ignition', () => {
    quiet(bench(), RULE);
  });
});
