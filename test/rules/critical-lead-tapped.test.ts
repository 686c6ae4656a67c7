import { describe, it } from 'vitest';
import { clean, flagged, quiet, unsure } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'critical-lead-tapped';

describe('a lead that lives hang on is tapped', () => {
  it('the brake lamps’ feed as supply', () => {
    const b = bench().set('feed15', { serves: 'critical', where: 'brake lamp' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('feed15'), says: ['brake lamp'] });
  });

  it('the radio’s permanent lead passes', () => {
    clean(bench(), RULE);
  });

  it('somebody does not know', () => {
    unsure(bench().set('feed15', { serves: 'unknown' }), RULE, 'what else hangs');
  });

  it('a lead that nothing is joined to is nobody’s business', () => {
    quiet(ground().part('feed', 'feed-15', 'dash', { serves: 'critical' }, { owner: 'vehicle' }), RULE);
  });
});
