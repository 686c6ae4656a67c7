import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'converter-starves';

describe('converter starves when the supply dips', () => {
  it('dip level I: the plateau less ripple is 8.5 V, the first dip 8.0 V; both leave more than 5.12 + 1.5 V', () => clean(bench(), RULE));

  it('dip level II: 6.5 V less 1 V of ripple cannot hold 5.12 V (ISO 16750-2 profile, from memory)', () => {
    const b = bench('level II', { dipLevel: 'II' });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), figures: { 'needed at the input': 6.7, 'arrives at worst': 0 }, says: ['starting'] });
  });

  it('a supply that is dead while starting need not hold then', () => {
    const b = bench('accessory', { dipLevel: 'II' })
      .without('relay')
      .part('feed75', 'feed-75', 'dash', { donorFuseRead: true }, { owner: 'vehicle' })
      .cut('tap')
      .wire('feed75.out', 'fuse.1', { lengthM: 0.1 })
      .wire('fuse.2', 'guard.in', { lengthM: 2.1 });
    clean(b, RULE);
  });

  it('an older module behind a series diode: the transistor guard wins what the diode loses', () => {
    const b = bench().set('converter', { dropV: 2.1, stopV: 7 }).set('guard', { type: 'schottky', dropV: 0.85, reverseV: 200 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter'), repairs: 1 });
  });

  it('long thin feed: under load it lets go, without load it starts again', () => {
    const b = bench().wireSet('feed', { areaMm2: 0.35, lengthM: 30 });
    flagged(b, RULE, { level: 'fault', subject: b.id('converter') });
  });
});
