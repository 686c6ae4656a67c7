import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, fused } from './plans.ts';
import { straight } from './plansSense.ts';

const RULE = 'master-switch-wrong';

const rocker = (amp: number, settings = {}): Bench =>
  fused('rocker')
    .part('switch', 'master-switch', 'dash', settings)
    .part('camera', 'camera', 'dash', { typA: amp, nightA: amp })
    .wire('fuse.2', 'switch.1', { lengthM: 0.2 })
    .wire('switch.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });

/** The computer's converter on two feeds over two diodes, a switch in one of them. */
const twoFeeds = (): Bench =>
  straight('30', 'two feeds')
    .cut('feed')
    .part('feed15', 'feed-15', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
    .part('fuse15', 'blade-fuse', 'dash')
    .part('switch', 'master-switch', 'dash')
    .part('d30', 'diode', 'seat', { type: 'sb560' })
    .part('d15', 'diode', 'seat', { type: 'sb560' })
    .wire('battery.+', 'feed15.in', { owner: 'vehicle' })
    .wire('feed15.out', 'fuse15.1', { lengthM: 0.1 })
    .wire('fuse.2', 'switch.1', { lengthM: 0.2 })
    .wire('switch.2', 'd30.A', { lengthM: 2 })
    .wire('fuse15.2', 'd15.A', { lengthM: 2 })
    .wire('d30.K', 'guard.in', { lengthM: 0.1 })
    .wire('d15.K', 'guard.in', { lengthM: 0.1 });

describe('master switch of the wrong kind or in the wrong place', () => {
  it('10 A at 14 V, behind the fuse', () => clean(rocker(2.1), RULE));

  it('6 A for mains, nothing for direct current, 2.1 A', () => {
    const b = rocker(2.1, { acOnly: true, dcA: 6 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('switch'), figures: { breaks: 2.1 }, repairs: 1 });
  });

  it('below some 0.4 A no arc stands (handbooks of contacts, from memory)', () => {
    clean(rocker(0.38, { acOnly: true }), RULE);
    const b = rocker(0.42, { acOnly: true });
    flagged(b, RULE, { level: 'hazard', subject: b.id('switch') });
  });

  it('one of two feeds of the same box', () => {
    const b = twoFeeds();
    flagged(b, RULE, { level: 'fault', subject: b.id('switch') });
  });

  it('where both feeds meet it cuts both', () => {
    const b = twoFeeds().without('switch').wire('fuse.2', 'd30.A', { lengthM: 2 }).part('switch', 'master-switch', 'seat').without('guard');
    clean(b.wire('d30.K', 'switch.1').wire('d15.K', 'switch.1').wire('switch.2', 'converter.in'), RULE);
  });

  it('a trigger line is no feed, and nothing is said without a switch', () => {
    clean(bench().into('trigger', 'switch', 'master-switch', ['1', '2'], { contact: 'gold', dcA: 3 }), RULE);
    quiet(bench(), RULE);
  });
});
