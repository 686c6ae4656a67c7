import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { fused } from './plans.ts';

const RULE = 'feed-drop';

/** A load of 2 A on a fused feed, there and back over the same length. */
const lamp = (areaMm2: number, lengthM: number) =>
  fused('lamp')
    .zone('dash', { maxC: 60 })
    .set('fuse', { ratingA: 5 })
    .part('camera', 'camera', 'dash', { typA: 2, nightA: 2, minV: 6 })
    .part('computer', 'computer', 'dash')
    .wire('camera.video', 'computer.video')
    .wire('fuse.2', 'camera.+', { lengthM, areaMm2 }, 'there')
    .wire('camera.-', 'ground.31', { lengthM, areaMm2 }, 'back');

// Hand: 45.1 mohm/m for 0.5 mm², 15.4 for 1.5 mm² at 60 °C (IEC 60228 class 5, read); 4 mohm of crimps a wire; 0.12 m at the tap.
const drop = (ohmPerM: number, lengthM: number) => 2 * (2 * lengthM * ohmPerM + 2 * 0.004 + 0.12 * 0.0154 + 0.004);

describe('too much voltage lost on the feed', () => {
  it('3 m there and 3 m back of 0.5 mm² at 2 A: about 0.57 V of 12 V, 4.8 %', () => {
    const b = lamp(0.5, 3).wireSet('tap', { areaMm2: 1.5 });
    flagged(b, RULE, { level: 'advice', subject: b.id('camera'), figures: { 'lost in wires': drop(0.0456, 3) }, repairs: 1 });
  });

  it('the same in 1.5 mm² loses 0.21 V', () => clean(lamp(1.5, 3), RULE));

  it('5 m of 0.5 mm² is a fault above 5 % for a camera that then gets too little, and advice for one that bears it', () => {
    const bears = lamp(0.5, 5).wireSet('tap', { areaMm2: 1.5 });
    flagged(bears, RULE, { level: 'advice', subject: bears.id('camera'), figures: { 'share of nominal': drop(0.0456, 5) / 12 }, repairs: 1 });
    const b = lamp(0.5, 5).wireSet('tap', { areaMm2: 1.5 }).set('camera', { minV: 9 });
    flagged(b, RULE, { level: 'fault', subject: b.id('camera'), figures: { 'share of nominal': drop(0.0456, 5) / 12 }, repairs: 1 });
    clean(b.threshold('feedDropAdvice', 0.1), RULE);
  });

  // The same way on 12 V of one battery of a 24 V pair: its drop is a share of 12 V, not of 24 V.
  it('on the middle of a 24 V pair it is a share of one battery', () => {
    const b = lamp(0.5, 3).wireSet('tap', { areaMm2: 1.5 }).vehicle({ systemV: 24 }).set('feed30', { pair: 'half' });
    flagged(b, RULE, {
      level: 'advice',
      subject: b.id('camera'),
      figures: { 'share of nominal': drop(0.0456, 3) / 12 },
      says: ['9 V supply', '% of 12 V'],
      repairs: 1,
    });
  });

  it('automatic sizes keep below it', () => clean(lamp(0.5, 4).wireSet('there', { areaMm2: undefined }).wireSet('back', { areaMm2: undefined }), RULE));
});
