import { describe, it } from 'vitest';
import { clean, flagged } from './harness.ts';
import { bench } from './plans.ts';

const RULE = 'five-volt-drop';
const ALL = ['five', 'four', 'zero6', 'zero9', 'zero14'] as const;
const one = (lengthM: number, areaMm2: number) =>
  bench().cut('four', 'zero9', 'zero14').wireSet('five', { lengthM, areaMm2 }).wireSet('zero6', { lengthM, areaMm2 });

describe('too much voltage lost after the converter', () => {
  it('five short wires of 1.5 mm² are in order', () => clean(bench(), RULE));

  it('1 m there and back of 0.75 mm²: 1.25 A over 2 x (31.2 + 4) mohm = 0.086 V at 65 °C', () => clean(one(1, 0.75), RULE));

  it('2 m there and back of 0.5 mm²: about 1.25 A over 2 x (2 x 45.9 + 4) mohm = 0.24 V (IEC 60228 class 5, read)', () => {
    const b = one(2, 0.5).set('converter', { limitMaxA: 4, limitMinA: 3, ratedA: 3 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), figures: { 'lost out and back': 1.25 * 2 * (2 * 0.0459 + 0.004) }, repairs: 1 });
    clean(b.threshold('fiveVoltDropV', 0.3), RULE);
  });

  it('many thin wires together are thickened together', () => {
    const b = bench().set('converter', { limitMaxA: 4, limitMinA: 3, ratedA: 3 });
    for (const w of ALL) b.wireSet(w, { lengthM: 5, areaMm2: 0.5 });
    flagged(b, RULE, { level: 'fault', subject: b.id('computer'), repairs: 1 });
  });

  it('a display says by its own window: 4.75 V', () => {
    const far = (areaMm2: number) =>
      bench()
        .part('display', 'touch-display', 'desk', { size: '10' })
        .part('branch', 'blade-fuse', 'seat', { ratingA: 3 })
        .wire('converter.out', 'branch.1', { lengthM: 0.1, areaMm2: 2.5 })
        .wire('branch.2', 'display.5v', { lengthM: 2.4, areaMm2 }, 'there')
        .wire('display.0v', 'converter.0v', { lengthM: 2.4, areaMm2: Math.max(1, areaMm2) }, 'back');
    clean(far(4), RULE);
    const b = far(0.5);
    flagged(b, RULE, { level: 'fault', subject: b.id('display'), repairs: 1 });
  });
});
