import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'surge-not-stopped';
/** 24 V stand-off, 600 W: breakdown 26.7 to 29.5 V, 38.9 V at 15.4 A (suppressor data sheet, read). */
const CLAMP_24 = { standoffV: 24, brMinV: 26.7, brMaxV: 29.5, clampV: 38.9, peakA: 15.4 };
/** Stands off a jump start and breaks down at 31.1 V (28 V type, from memory). */
const CLAMP_28 = { standoffV: 28, brMinV: 31.1, brMaxV: 34.4, clampV: 45.4, peakA: 13.2 };
const OLDER = { inMaxV: 40, absMaxV: 45 };

describe('surge clamp missing or of the wrong kind', () => {
  it('60 V converter, 33 V clamp, clamped load dump of 35 V: nothing conducts', () => clean(bench(), RULE));

  it('a 24 V stand-off conducts for the minute of a jump start at 26 V', () => {
    const b = bench().set('clamp', CLAMP_24);
    flagged(b, RULE, { level: 'hazard', subject: b.id('clamp'), figures: { 'jump start': 26 }, repairs: 1 });
  });

  it('a 28 V clamp would take (35 − 31.1) / 0.5 x 31.1 x 0.4 s = 97 J of a load dump, and stands 1 J', () => {
    const b = bench().set('clamp', CLAMP_28);
    flagged(b, RULE, {
      level: 'hazard',
      subject: b.id('clamp'),
      figures: { 'energy of the dump': ((35 - 31.1) / 0.5) * 31.1 * 0.4, 'energy it stands': 1 },
      repairs: 1,
    });
  });

  it('a 36 V module without a clamp: 0.9 x 36 = 32.4 V, below 35 V', () => {
    const b = bench().without('clamp').set('guard', { reverseV: 200 }).set('converter', { absMaxV: 36 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), figures: { 'converter stands': 36, 'surge that arrives': 35 }, repairs: 1 });
    // 0.9 x 45 = 40.5 V.
    clean(b.set('converter', OLDER), RULE);
  });

  it('a big clamp that takes the energy holds the rail at 34.8 V, not low enough for a module of 38 V', () => {
    // Breakdown at most 34.4 V, slope (45.4 − 34.4) / 13.2 A, behind 0.5 ohm: 34.4 V + 0.833 ohm x 0.45 A.
    const b = bench()
      .set('clamp', { ...CLAMP_28, energyJ: 150 })
      .set('converter', { ...OLDER, absMaxV: 38 });
    const slope = (45.4 - 34.4) / 13.2;
    const held = 34.4 + slope * ((35 - 34.4) / (0.5 + slope));
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), figures: { 'surge that arrives': held }, repairs: 1 });
    clean(b.set('converter', OLDER), RULE);
  });

  it('24 V machine without a central clamp: 202 V on a 45 V module, and no clamp counts', () => {
    const b = fused('harvester', { systemV: 24, centralClamping: 'no' })
      .part('converter', 'step-down', 'dash', OLDER)
      .part('computer', 'computer', 'dash')
      .wire('fuse.2', 'converter.in')
      .wire('converter.gnd', 'ground.31')
      .wire('converter.out', 'computer.2')
      .wire('converter.0v', 'computer.6');
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), figures: { 'surge that arrives': 202 } });
  });

  it('what stands exactly what comes wants a tenth more, and is told so', () => {
    const b = bench().without('clamp').set('guard', { reverseV: 200 }).set('converter', { absMaxV: 35, inMaxV: 34 });
    flagged(b, RULE, { level: 'hazard', subject: b.id('converter'), says: ['a tenth'], repairs: 1 });
    // 35 V / 0.9 = 38.9 V.
    clean(bench().without('clamp').set('guard', { reverseV: 200 }).set('converter', { absMaxV: 39, inMaxV: 34 }), RULE);
    const just = bench().without('clamp').set('guard', { reverseV: 200 }).set('converter', { absMaxV: 38.8, inMaxV: 34 });
    flagged(just, RULE, { level: 'hazard', subject: just.id('converter') });
  });

  it('nobody has said whether the alternator clamps: the worst is taken, and the answer is offered', () => {
    const b = bench('unknown', { centralClamping: 'unknown' });
    flagged(b, RULE, { level: 'hazard', subject: b.id('clamp'), says: ['nobody has said'], repairs: 1 });
  });
});
