import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, ground } from './plans.ts';

const RULE = 'small-contact-overloaded';

/** A computer with heavy USB devices, behind some of its pins, in the dash (70 °C) or under the seat (60 °C). */
const loaded = (zone: 'dash' | 'seat', devicesA: number, pins5: readonly number[], pins0: readonly number[]): Bench => {
  const b = bench().without('computer').part('board', 'computer', zone, { board: 'newest' });
  for (const pin of pins5) b.wire('converter.out', `board.${pin}`, { lengthM: 0.25, areaMm2: 1.5 });
  for (const pin of pins0) b.wire('converter.0v', `board.${pin}`, { lengthM: 0.25, areaMm2: 1.5 });
  for (const k of [1, 2])
    b.part(`usb${k}`, 'usb-device', zone, { typA: devicesA / 2, peakA: devicesA / 2 }).wire(`board.usb${k}`, `usb${k}.usb`, { lengthM: 0.3 });
  return b;
};

describe('small contact carries too much', () => {
  it('pins 2 and 4, grounds 6, 9 and 14 of the bench', () => clean(bench(), RULE));

  it('one 5 V pin and one ground at 70 °C: 3 A × 0.7 = 2.1 A per contact', () => {
    const b = loaded('dash', 0.75, [2], [6]);
    flagged(b, RULE, { level: 'fault', subject: b.id('board'), figures: { carries: 2.1 }, repairs: 1 });
  });

  it('two 5 V pins share 60 to 40, three grounds 40 each at worst', () => {
    // Board and devices together stay below 2.5 A: 0.6 × 2.5 = 1.5 A.
    clean(loaded('seat', 0.6, [2, 4], [6, 9, 14]), RULE);
  });

  it('either side of 2.1 A at 70 °C: the board’s 1.7 A and its devices', () => {
    const b = loaded('dash', 0.45, [2], [6]);
    flagged(b, RULE, { level: 'fault', subject: b.id('board') });
    const less = loaded('dash', 0.35, [2], [6]);
    flagged(less, RULE, { level: 'advice', subject: less.id('board'), repairs: 1 });
  });

  it('half of the rating is the aim: above 1.5 A advice', () => {
    const b = loaded('seat', 0.6, [2], [6, 9, 14]);
    flagged(b, RULE, { level: 'advice', subject: b.id('board'), figures: { carries: 3 }, repairs: 1 });
  });

  it('a plug whose contact carries more than its rating', () => {
    const plugged = (contactA: number): Bench =>
      bench()
        .part('plug', 'connector', 'seat', { ways: 2, contactA })
        .part('camera', 'camera', 'seat', { typA: 0.5, nightA: 0.5 })
        .wire('relay.87', 'plug.a1', { lengthM: 0.2 })
        .wire('plug.b1', 'camera.+', { lengthM: 0.2 })
        .wire('camera.-', 'converter.gnd', { lengthM: 0.2 });
    clean(plugged(0.51), RULE);
    const b = plugged(0.49);
    flagged(b, RULE, { level: 'fault', subject: b.id('plug'), figures: { 'worst contact': 0.5, carries: 0.49 } });
  });

  it('says nothing without contacts', () => quiet(ground(), RULE));
});
