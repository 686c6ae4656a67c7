import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'fuse-far-from-tap';

// Limits 0.15 m and 0.45 m: trade practice.
describe('fuse too far from the tap', () => {
  it('0.12 m is in order', () => clean(bench(), RULE));

  it('0.80 m of bare wire is a hazard unless a read donor fuse covers it', () => {
    const b = bench().wireSet('tap', { lengthM: 0.8, areaMm2: 1 }).set('feed30', { donorFuseRead: false });
    flagged(b, RULE, { level: 'hazard', subject: b.id('fuse'), figures: { 'unprotected length': 0.8, 'usual limit': 0.15 }, repairs: 1 });
    // 5 A read at the vehicle, 1 mm² in a dash of 70 °C carries 8.8 A.
    const covered = bench().wireSet('tap', { lengthM: 0.8, areaMm2: 1 }).set('feed30', { donorFuseA: 5 });
    flagged(covered, RULE, { level: 'advice', subject: covered.id('fuse') });
  });

  it('0.30 m is advice at a lead, and a hazard at a battery post', () => {
    const b = bench().wireSet('tap', { lengthM: 0.3 }).set('feed30', { donorFuseRead: false });
    flagged(b, RULE, { level: 'advice', subject: b.id('fuse'), repairs: 1 });
    const post = bench().cut('tap').wire('battery.+', 'fuse.1', { lengthM: 0.3 }, 'tap');
    flagged(post, RULE, { level: 'hazard', subject: post.id('fuse'), repairs: 1 });
  });

  it('either side of 0.15 m and of 0.45 m', () => {
    const at = (lengthM: number) => bench().wireSet('tap', { lengthM }).set('feed30', { donorFuseRead: false });
    clean(at(0.15), RULE);
    flagged(at(0.16), RULE, { level: 'advice', subject: at(0.16).id('fuse'), repairs: 1 });
    flagged(at(0.45), RULE, { level: 'advice', subject: at(0.45).id('fuse') });
    flagged(at(0.46), RULE, { level: 'hazard', subject: at(0.46).id('fuse'), repairs: 1 });
    const post = (lengthM: number) => bench().cut('tap').wire('battery.+', 'fuse.1', { lengthM }, 'tap');
    clean(post(0.15), RULE);
    flagged(post(0.16), RULE, { level: 'hazard', subject: post(0.16).id('fuse') });
  });

  it('its own sleeve doubles both limits, up to 1 m', () => {
    clean(bench().wireSet('tap', { lengthM: 0.29, sleeved: true }), RULE);
    const b = bench().wireSet('tap', { lengthM: 0.85, sleeved: true }).set('feed30', { donorFuseRead: false });
    flagged(b, RULE, { level: 'advice', subject: b.id('fuse') });
    const long = bench().wireSet('tap', { lengthM: 0.95, sleeved: true }).set('feed30', { donorFuseRead: false });
    flagged(long, RULE, { level: 'hazard', subject: long.id('fuse') });
  });

  it('limits can be the person’s own', () => clean(bench().wireSet('tap', { lengthM: 0.17 }).threshold('fuseAdviceM', 0.178), RULE));
});
