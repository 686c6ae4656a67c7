import { describe, expect, it } from 'vitest';
import { clean, compute, findingsOf, flagged, quiet, repairsOf } from './harness.ts';
import { type Bench, bench, fused, ground } from './plans.ts';
import { withStore } from './plansSense.ts';

const RULE = 'fuse-order';

const branch = (mainA: number, branchA: number): Bench =>
  fused('branch')
    .set('fuse', { ratingA: mainA })
    .part('branchFuse', 'blade-fuse', 'dash', { ratingA: branchA })
    .part('camera', 'camera', 'dash')
    .wire('fuse.2', 'branchFuse.1', { lengthM: 0.5 })
    .wire('branchFuse.2', 'camera.+', { lengthM: 2 })
    .wire('camera.-', 'ground.31', { lengthM: 2 });

describe('the wrong fuse may open first', () => {
  it('5 A ahead of 2 A', () => clean(branch(5, 2), RULE));

  it('5 A ahead of 5 A', () => {
    const b = branch(5, 5);
    flagged(b, RULE, { level: 'advice', subject: b.id('branchFuse'), figures: { 'this fuse': 5, 'fuse ahead': 5 }, says: ['5.0 A as well'], repairs: 1 });
  });

  it('a step of 1.6 and more: 5 A over 3 A is 1.67, 3 A over 2 A is 1.5', () => {
    clean(branch(5, 3), RULE);
    const b = branch(3, 2);
    flagged(b, RULE, { level: 'advice', subject: b.id('branchFuse') });
  });

  // On permanent 30 it fills once, when the fuse is put in: 3 A melt at 9 A²s, 5 A at 26 A²s (makers' tables, from memory); V² C / 2 R lies between.
  it('no smaller fuse is offered that the filling of a capacitor in the branch would eat', () => {
    const filled = (farad: number) =>
      branch(5, 5)
        .part('cap', 'capacitor', 'dash', { farad, ratedV: 25 })
        .wire('branchFuse.2', 'cap.+', { lengthM: 0.5 })
        .wire('cap.-', 'ground.31', { lengthM: 0.5 });
    const b = filled(47e-3);
    flagged(b, RULE, { level: 'advice', subject: b.id('branchFuse') });
    expect(repairsOf(b, RULE)).toEqual([]);
    expect(findingsOf(compute(b.set('branchFuse', { ratingA: 3 })), 'fuse-eaten-by-surge').map((f) => f.subject.id)).toContain(b.id('branchFuse'));
    const small = filled(10e-3);
    flagged(small, RULE, { level: 'advice', subject: small.id('branchFuse'), repairs: 1 });
    expect(findingsOf(compute(small.set('branchFuse', { ratingA: 3 })), 'fuse-eaten-by-surge')).toEqual([]);
  });

  it('the vehicle’s own fuse counts only when it was read', () => {
    const b = branch(10, 2).set('feed30', { donorFuseA: 15 });
    flagged(b, RULE, { level: 'advice', subject: b.id('fuse'), figures: { 'fuse ahead': 15 } });
    clean(branch(10, 2).set('feed30', { donorFuseA: 15, donorFuseRead: undefined }), RULE);
  });

  it('not across a converter: its volts are others', () => {
    const b = bench()
      .set('fuse', { ratingA: 3 })
      .part('displayFuse', 'blade-fuse', 'seat', { ratingA: 3 })
      .part('display', 'touch-display', 'seat')
      .wire('converter.out', 'displayFuse.1', { lengthM: 0.1 })
      .wire('displayFuse.2', 'display.5v', { lengthM: 0.5 })
      .wire('display.0v', 'converter.0v', { lengthM: 0.5 });
    clean(b, RULE);
    // Two in a row behind it are judged.
    const two = b
      .part('second', 'blade-fuse', 'seat', { ratingA: 3 })
      .part('other', 'touch-display', 'seat')
      .wire('displayFuse.2', 'second.1', { lengthM: 0.1 })
      .wire('second.2', 'other.5v', { lengthM: 0.2 })
      .wire('other.0v', 'converter.0v', { lengthM: 0.2 });
    flagged(two, RULE, { level: 'advice', subject: two.id('second') });
  });

  it('the fuse of a store guards what the store gives, whatever fills it: no order is asked of it', () => {
    clean(withStore().set('fuse', { ratingA: 2 }).set('storeFuse', { ratingA: 5 }), RULE);
  });

  it('says nothing where no fuse is ahead', () => quiet(ground().part('post', 'blade-fuse', 'bay').wire('battery.+', 'post.1', { lengthM: 0.1 }), RULE));
});
