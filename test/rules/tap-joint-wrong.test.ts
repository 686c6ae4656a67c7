import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { type Bench, fused, ground } from './plans.ts';

const RULE = 'tap-joint-wrong';

const tapped = (joint: string, leadMm2 = 1.5, areaMm2 = 1, amp = 1): Bench =>
  fused('tapped')
    .set('feed30', { joint, leadMm2 })
    .wireSet('tap', { areaMm2 })
    .part('camera', 'camera', 'dash', { typA: amp, nightA: amp })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });

describe('wrong joint for this tap', () => {
  it('an adapter, a crimp, a soldered joint', () => {
    for (const joint of ['adapter', 'crimp', 'solder']) clean(tapped(joint), RULE);
  });

  it('a piercing tap for 0.75 to 2.5 mm² (makers’ lists, from memory) on a 0.35 mm² radio lead', () => {
    const b = tapped('piercing', 0.35, 0.75);
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30'), says: ['0.35'], repairs: 2 });
    clean(tapped('piercing', 1.5, 0.75), RULE);
  });

  it('more than 3 A through a piercing tap', () => {
    clean(tapped('piercing', 1.5, 1, 2.9), RULE);
    const b = tapped('piercing', 1.5, 1, 3.1);
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30'), says: ['3.1 A'] });
  });

  it('a piercing tap in the engine bay', () => {
    const b = ground('bay')
      .part('feed30', 'feed-30', 'bay', { joint: 'piercing' }, { owner: 'vehicle' })
      .part('fuse', 'blade-fuse', 'bay')
      .wire('feed30.out', 'fuse.1', { lengthM: 0.1, areaMm2: 1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30'), says: ['Engine bay'] });
  });

  it('twisted and taped', () => {
    const b = tapped('twist');
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30') });
  });

  it('asks how, where nobody has said', () => {
    unsure(fused(), RULE, 'joins');
    quiet(ground(), RULE);
  });
});
