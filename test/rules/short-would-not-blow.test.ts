import { describe, expect, it } from 'vitest';
import { clean, flagged, repairsOf } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'short-would-not-blow';

/** A camera at the far end of 8 m there and 8 m back, as in many vans. */
const camera = (ratingA: number, areaMm2: number) =>
  fused('camera')
    .set('fuse', { ratingA })
    .zone('desk', { kind: 'under-seat' })
    .part('camera', 'camera', 'desk')
    .wire('fuse.2', 'camera.+', { lengthM: 8, areaMm2 }, 'there')
    .wire('camera.-', 'ground.31', { lengthM: 8, areaMm2 }, 'back');

describe('a short at the far end would not blow the fuse', () => {
  it('8 m out and back in 0.5 mm² on 10 A: about 11 A, 1.1 times the rating, need never open', () => {
    // 9 V / (0.10 feed + 16 m x 46.7 mohm/m at 70 °C + crimps and fuse): class 5 copper of IEC 60228 (read).
    const loop = 0.1 + 16 * 0.0467 + 0.12 * 0.01 + 6 * 0.002 + 0.0077 * 1.3 + 0.007;
    const b = camera(10, 0.5);
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.id('fuse'),
      figures: { 'least short-circuit current': 9 / loop, 'times the rating': 0.9 / loop },
      repairs: 1,
    });
  });

  it('2 A on the same wire opens within half a second', () => clean(camera(2, 0.5), RULE));

  it('7.5 A on 0.75 mm²: between 1.35 and 2 times, a fault where the wire carries the fuse’s rating', () => {
    const b = camera(7.5, 0.75).zone('dash', { maxC: 55 }).zone('seat', { maxC: 55 }).zone('desk', { maxC: 55 });
    const loop = 0.1 + 16 * 0.026 * (1 + 0.00393 * 35) + 0.001 + 6 * 0.002 + 0.0109 * 1.3 + 0.007;
    flagged(b, RULE, { level: loop * 15 > 9 ? 'fault' : 'advice', subject: b.id('fuse'), figures: { 'times the rating': 9 / loop / 7.5 } });
  });

  it('no smaller fuse is offered that the filling of a capacitor at the far end would eat', () => {
    const filled = (farad: number) =>
      camera(10, 0.5)
        .part('bulk', 'capacitor', 'desk', { farad, esrOhm: 0.01 })
        .wire('bulk.+', 'camera.+', { lengthM: 0.1 })
        .wire('bulk.-', 'camera.-', { lengthM: 0.1 });
    // V² C / 2 R with 14.4 V and some 0.9 Ω: 470 µF take 0.05 A²s, 10 000 µF take 1.1 A²s; 2 A may use 0.22 × 1.4 A²s (fuse maker's table, read).
    expect(repairsOf(filled(470e-6), RULE).map((r) => r.title)).toEqual(['Fit a 2 A fuse']);
    expect(repairsOf(filled(0.01), RULE)).toEqual([]);
  });

  it('behind a converter the short is as large as its limit: 6.6 A before 5 A is 1.3 times', () => {
    const b = bench()
      .part('branch', 'blade-fuse', 'seat', { ratingA: 5 })
      .part('display', 'touch-display', 'seat')
      .wire('converter.out', 'branch.1', { lengthM: 0.1, areaMm2: 1.5 })
      .wire('branch.2', 'display.5v', { lengthM: 0.5, areaMm2: 1.5 }, 'tail')
      .wire('display.0v', 'converter.0v', { lengthM: 0.5, areaMm2: 1.5 }, 'tail-');
    flagged(b, RULE, { level: 'advice', subject: b.id('branch'), figures: { 'least the converter gives': 6.6, 'times the rating': 1.32 }, repairs: 1 });
    // 0.5 mm² may carry 5 A, and the converter may push 8 A for ever.
    b.wireSet('tail', { areaMm2: 0.5 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('branch'), repairs: 1 });
    clean(b.set('branch', { ratingA: 2 }), RULE);
  });
});
