import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { type Bench, bench, fused, ground } from './plans.ts';

const RULE = 'donor-overloaded';

/** A radio feed with a known fuse and load, and a camera that takes what is asked behind our fuse. */
const tapped = (amp: number, donorFuseA: number, donorLoadA: number, more = {}): Bench =>
  fused('tapped')
    .set('feed30', { donorFuseA, donorLoadA, leadMm2: 2.5, ...more })
    .part('camera', 'camera', 'dash', { typA: amp, nightA: amp })
    .wire('fuse.2', 'camera.+', { lengthM: 1 })
    .wire('camera.-', 'ground.31', { lengthM: 1 });

describe('tapped circuit overloaded', () => {
  it('the bench', () => clean(bench(), RULE));

  it('10 A circuit, 6.5 A at full volume and 2.1 A of ours: 8.6 A of 8', () => {
    const b = tapped(2.1, 10, 6.5);
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30'), figures: { together: 8.6, 'may be drawn': 8 }, repairs: 1 });
    clean(tapped(2.1, 15, 6.5), RULE);
  });

  it('either side of 80 %', () => {
    clean(tapped(1.49, 10, 6.5), RULE);
    const b = tapped(1.51, 10, 6.5);
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30') });
  });

  it('nobody has measured: half of the fuse is assumed, and it is advice', () => {
    const b = tapped(3.5, 10, 6.5).set('feed30', { donorLoadMeasured: undefined, donorLoadA: undefined });
    flagged(b, RULE, { level: 'advice', subject: b.id('feed30'), figures: { together: 8.5 } });
    clean(tapped(2.5, 10, 6.5).set('feed30', { donorLoadMeasured: undefined, donorLoadA: undefined }), RULE);
  });

  it('what is ours alone is sure', () => {
    const b = tapped(4.9, 5, 0).set('feed30', { donorLoadMeasured: undefined, donorLoadA: undefined });
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30') });
  });

  it('the lead may be the weaker: 0.75 mm² of 100 °C class in a dash of 70 °C carries 7.5 A × √(30/45)', () => {
    const b = tapped(2, 15, 5).set('feed30', { leadMm2: 0.75 });
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30'), figures: { 'may be drawn': 7.5 * Math.sqrt(30 / 45) } });
  });

  it('a sensing lead is not what overloads a circuit: either side of 2 % of the 8 A that it may bear', () => {
    clean(tapped(0.15, 10, 8.5), RULE);
    const b = tapped(0.17, 10, 8.5);
    flagged(b, RULE, { level: 'fault', subject: b.id('feed30') });
  });

  it('says nothing of a feed that gives nothing', () => quiet(ground().part('feed30', 'feed-30', 'dash', {}, { owner: 'vehicle' }), RULE));
});
