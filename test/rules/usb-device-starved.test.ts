import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet } from './harness.ts';
import { bench, withHub } from './plans.ts';

const RULE = 'usb-device-starved';

const reader = (areaMm2: number, lengthM = 4, settings: Readonly<Record<string, number>> = {}) =>
  bench()
    .part('reader', 'usb-device', 'seat', { typA: 0.2, peakA: 0.5, ...settings })
    .part('cable', 'usb-cable', 'seat', { lengthM, areaMm2 })
    .wire('computer.usb1', 'cable.host', { lengthM: 0.05, areaMm2: 0.5 })
    .wire('cable.device', 'reader.usb', { lengthM: 0.05, areaMm2: 0.5 });

describe('USB device starved by its cable', () => {
  // Outside: 28 gauge is 213 mΩ/m at 20 °C (wire tables). 2 × 4 m × 0.213 × 1.157 at 60 °C × 0.5 A = 0.99 V, and contacts.
  it('4 m of 28 gauge at 0.5 A', () => {
    const b = reader(0.08);
    flagged(b, RULE, { level: 'fault', subject: b.id('reader'), figures: { 'lost in the cable': 1.02, arrives: 3.73, needed: 4.5 }, repairs: 1 });
  });

  // 20 gauge, 33 mΩ/m: 0.13 V at 20 °C, so 4.6 V arrive of the 4.75 V that a port must give.
  it('4 m of 20 gauge passes', () => {
    clean(reader(0.5), RULE);
  });

  it('either side of 0.25 V: 24 gauge, 84 mΩ/m, 2.4 m and 2.0 m', () => {
    const b = reader(0.205, 2.6);
    flagged(b, RULE, { level: 'fault', subject: b.id('reader'), repairs: 1 });
    clean(reader(0.205, 2), RULE);
  });

  it('a device of at most 100 mA may have 4.40 V', () => {
    clean(reader(0.08, 4, { typA: 0.05, peakA: 0.1 }), RULE);
    const b = reader(0.08, 8, { typA: 0.05, peakA: 0.1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('reader'), figures: { needed: 4.4 }, repairs: 1 });
  });

  it('a wire drawn as the cable is judged the same, and made thicker', () => {
    const b = bench().part('reader', 'usb-device', 'seat').wire('computer.usb1', 'reader.usb', { lengthM: 4, areaMm2: 0.08 });
    flagged(b, RULE, { level: 'fault', subject: b.id('reader'), repairs: 1 });
  });

  it('folds under a cable that is too long anyway', () => {
    const { cards } = compute(reader(0.08, 6)).report;
    expect(cards.find((c) => c.rule === 'usb-cable-too-long')?.folded.map((f) => f.rule)).toContain(RULE);
  });

  // 2 × 2 m × 0.084 Ω/m × 0.5 A = 0.17 V a side: both sides together are too much, one is not.
  it('a hub with its own 5 V ends the drop of the cable before it, one without adds its cable', () => {
    const ends = (b: ReturnType<typeof bench>) =>
      b
        .part('reader', 'usb-device', 'seat', { typA: 0.2, peakA: 0.5 })
        .part('last', 'usb-cable', 'seat', { lengthM: 2, areaMm2: 0.205 })
        .wire('hub.d1', 'last.host', { lengthM: 0.05, areaMm2: 0.5 })
        .wire('last.device', 'reader.usb', { lengthM: 0.05, areaMm2: 0.5 });
    const bus = ends(bench().part('hub', 'usb-hub', 'seat', { ownSupply: false }).wire('computer.usb1', 'hub.up', { lengthM: 2, areaMm2: 0.205 }, 'hubPlug'));
    flagged(bus, RULE, { level: 'fault', subject: bus.id('reader') });
    clean(ends(withHub(bench())).wireSet('hubPlug', { lengthM: 2, areaMm2: 0.205 }), RULE);
  });

  it('no USB, nothing to say', () => {
    quiet(bench(), RULE);
  });
});
