import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'fuse-too-small';

describe('fuse too small for the steady load', () => {
  it('the automatic fuse is in order', () => clean(bench(), RULE));

  it('a 1 A fuse at 60 °C holds 0.75 x 1 x (1 - 0.0025 x 35) = 0.684 A (fuse makers’ guides, from memory)', () => {
    // Computer 1.2 A at 5.12 V, 88 %, from 9 V less what the way loses, and 0.14 A of the hold relay.
    const b = bench().set('fuse', { ratingA: 1 });
    flagged(b, RULE, { level: 'fault', subject: b.id('fuse'), figures: { 'fuse holds': 0.684 }, repairs: 1 });
  });

  it('a fuse that is too small behind typed thin wires: the next one lets them grow', () => {
    const b = bench().set('fuse', { ratingA: 1 }).wireSet('feed', { areaMm2: 0.22 }).wireSet('return', { areaMm2: 0.5 });
    flagged(b, RULE, { level: 'fault', subject: b.id('fuse'), repairs: 1 });
  });
});
