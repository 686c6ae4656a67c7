import { describe, it } from 'vitest';
import { clean, flagged, quiet } from './harness.ts';
import { bench, ground } from './plans.ts';

const RULE = 'trimmer-can-wander';
const trimmed = () => bench().set('converter', { trimmer: true });

describe('a trimmer sets the 5 V', () => {
  it('fixed output: nothing can wander', () => {
    clean(bench(), RULE);
  });

  it('the blue trimmer module: 16 V less its 1.5 V may come out', () => {
    const b = trimmed();
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), figures: { 'may come out': 14.5 }, says: ['14.5 V'], repairs: 2 });
  });

  it('sealed with lacquer it stays where it was set', () => {
    clean(trimmed().set('converter', { trimmerSealed: true }), RULE);
  });

  // A guard of 5.6 V behind a fuse: above the header's 5.25 V window, below the 6 V limit of 5 V logic.
  const guarded = (least: number, most: number) =>
    trimmed()
      .cut('five', 'four')
      .part('fiveFuse', 'blade-fuse', 'seat', { ratingA: 5 })
      .part('guard5', 'surge-clamp', 'seat', { standoffV: 5, brMinV: least, brMaxV: most, clampV: 8 })
      .wire('converter.out', 'fiveFuse.1', { lengthM: 0.1, areaMm2: 1.5 })
      .wire('fiveFuse.2', 'computer.2', { lengthM: 0.2, areaMm2: 1.5 })
      .wire('guard5.K', 'fiveFuse.2', { lengthM: 0.05 })
      .wire('guard5.A', 'converter.0v', { lengthM: 0.05 });

  it('a guard of 5.6 V behind a fuse stops it; one that breaks down later does not', () => {
    clean(guarded(5.32, 5.88), RULE);
    const b = guarded(6.4, 7);
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), repairs: 2 });
  });

  it('has nothing to say without a converter for a computer', () => {
    quiet(ground(), RULE);
  });
});
