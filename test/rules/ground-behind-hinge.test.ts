import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'ground-behind-hinge';

/** A load of so many amps in a cab whose ground lies behind a hinge. */
function cab(amp: number) {
  return fused('cab')
    .set('ground', { place: 'hinge' })
    .part('camera', 'camera', 'dash', { typA: amp, nightA: amp })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });
}

describe('ground that reaches the frame only over a hinge', () => {
  // Worked by hand: 2 A x 0.4 ohm = 0.8 V.
  it('2 A over the 0.4 Ω of a bearing lose 0.8 V', () => {
    const b = cab(2);
    flagged(b, RULE, { level: 'hazard', subject: b.id('ground'), figures: { 'comes home there': 2, 'lost there': 0.8 }, says: ['0.80 V'], repairs: 1 });
  });

  it('under 0.1 A it is a fault, above it a hazard', () => {
    const little = cab(0.09);
    flagged(little, RULE, { level: 'fault', subject: little.id('ground'), repairs: 1 });
    const more = cab(0.11);
    flagged(more, RULE, { level: 'hazard', subject: more.id('ground'), repairs: 1 });
  });

  it('a measured joint counts as measured: 2 A x 0.1 ohm = 0.2 V', () => {
    const b = cab(2).set('ground', { measuredOhm: 0.1 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('ground'), figures: { 'lost there': 0.2 }, repairs: 1 });
  });

  it('with a strap of its own', () => {
    clean(cab(2).set('ground', { place: 'strapped-cab' }), RULE);
  });

  it('has nothing to say of a stud', () => {
    quiet(bench(), RULE);
  });
});
