import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';
import { straight } from './plansSense.ts';

const RULE = 'retained-feed-only';

describe('only fed by retained accessory', () => {
  it('permanent feeds', () => {
    clean(bench(), RULE);
  });

  it('the retained line alone', () => {
    const b = straight('75r');
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), says: ['retained', 'door'], repairs: 1 });
  });

  it('the retained line triggers, permanent feeds', () => {
    const b = bench()
      .part('retained', 'feed-75r', 'dash', {}, { owner: 'vehicle' })
      .part('retainedFuse', 'blade-fuse', 'dash', { ratingA: 1 })
      .wire('battery.+', 'retained.in', { owner: 'vehicle' })
      .wire('retained.out', 'retainedFuse.1', { lengthM: 0.1 })
      .cut('trigger')
      .wire('retainedFuse.2', 'relay.15');
    clean(b, RULE);
  });

  it('has nothing to say of a computer that nothing feeds', () => {
    quiet(ground().part('computer', 'computer', 'seat'), RULE);
  });
});
