import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, fused, ground } from './plans.ts';

const RULE = 'break-only-in-return';

/** A camera whose feed goes straight to the tap, with something in its ground wire. */
const inGround = (kind: string): Bench =>
  ground('in the ground wire')
    .part('feed30', 'feed-30', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
    .part('camera', 'camera', 'dash', { typA: 0.6, nightA: 0.6 })
    .part('breaker', kind, 'dash')
    .wire('battery.+', 'feed30.in', { owner: 'vehicle' })
    .wire('feed30.out', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'breaker.1', { lengthM: 0.5 })
    .wire('breaker.2', 'ground.31', { lengthM: 0.5 });

describe('fuse or switch only in the ground wire', () => {
  it('fuses in the feeds', () => clean(bench(), RULE));

  it('a fuse in the black wire, the red straight to the tap: the repair moves it there', () => {
    const b = inGround('blade-fuse');
    flagged(b, RULE, { level: 'hazard', subject: b.id('breaker'), says: ['B1'], repairs: 1 });
  });

  it('a second fuse in the ground wire, beside one in the feed', () => {
    const b = bench().into('return', 'groundFuse', 'blade-fuse', ['1', '2'], { ratingA: 10 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('groundFuse'), repairs: 1 });
  });

  it('a switch as sole breaker: 0.6 A is above 0.5 A, 0.4 A is not', () => {
    const b = inGround('master-switch');
    flagged(b, RULE, { level: 'hazard', subject: b.id('breaker'), figures: { carries: 0.6 }, repairs: 1 });
    clean(inGround('master-switch').set('camera', { typA: 0.4, nightA: 0.4 }), RULE);
  });

  it('with a relay in the feed the switch is not the only breaker', () => {
    const b = fused('relay in the feed')
      .part('relay', 'delay-off-relay', 'dash')
      .part('camera', 'camera', 'dash', { typA: 0.6, nightA: 0.6 })
      .part('breaker', 'master-switch', 'dash')
      .wire('fuse.2', 'relay.30')
      .wire('relay.31', 'ground.31')
      .wire('relay.87', 'camera.+')
      .wire('camera.-', 'breaker.1')
      .wire('breaker.2', 'ground.31');
    clean(b, RULE);
  });

  it('a low-side driver is how coils and lamps are switched', () => {
    const b = bench()
      .part('lampRelay', 'relay', 'seat', { suppression: 'diode' })
      .part('driver', 'optocoupler', 'seat')
      .wire('fuse.2', 'lampRelay.86')
      .wire('lampRelay.85', 'driver.C')
      .wire('driver.E', 'ground.31');
    clean(b, RULE);
  });

  it('says nothing without fuse and switch', () => quiet(ground(), RULE));
});
