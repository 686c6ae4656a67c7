import { describe, expect, it } from 'vitest';
import { clean, compute, flagged, quiet, unsure } from './harness.ts';
import { bench, fused } from './plans.ts';

const RULE = 'camera-starved-at-night';

const rear = (areaMm2: number, settings: Readonly<Record<string, number>> = {}) =>
  fused('rear camera')
    .part('camera', 'camera', 'desk', { nightA: 0.5, ...settings })
    .part('screen', 'touch-display', 'dash')
    .wire('fuse.2', 'camera.+', { lengthM: 15, areaMm2 }, 'out')
    .wire('camera.-', 'ground.31', { lengthM: 15, areaMm2 }, 'back')
    .wire('camera.video', 'screen.video', { lengthM: 15 });

describe('camera starved at night', () => {
  // 2 × 15 m × 98.1 mΩ/m at 60 °C × 0.5 A = 1.47 V of 9 V: worked from IEC 60228-like cable resistance, 0.22 mm².
  it('15 m of 0.22 mm² with night lamps', () => {
    const b = rear(0.22);
    flagged(b, RULE, { level: 'fault', subject: b.id('camera'), figures: { 'lost in leads': 1.5, arrives: 7.4, needed: 9 }, repairs: 1 });
  });

  it('0.75 mm² and a camera that works from 8 V pass', () => {
    clean(rear(0.75, { minV: 8 }), RULE);
  });

  it('by day alone the thin leads would do', () => {
    clean(rear(0.22, { nightA: 0.1, typA: 0.1 }), RULE);
  });

  it('either side: 0.35 mm² loses 0.95 V and is short, 2.5 mm² keeps within what makers round', () => {
    const b = rear(0.35);
    flagged(b, RULE, { level: 'fault', subject: b.id('camera'), repairs: 1 });
    clean(rear(2.5), RULE);
  });

  it('folds the drop of the same leads under it', () => {
    const { cards } = compute(rear(0.22)).report;
    expect(cards.find((c) => c.rule === RULE)?.folded.map((f) => f.code)).toContain('B1');
  });

  it('what is lost ahead of its leads is no fault of theirs, as long as it works with the key on', () => {
    // A guard of 0.6 V: 9 V − 0.6 V − leads are under 9 V, 10.5 V − 0.6 V are not.
    const guarded = (areaMm2: number) => rear(areaMm2).into('out', 'guard', 'reverse-guard', ['in', 'out'], { type: 'schottky', dropV: 0.6 });
    clean(guarded(2.5).wireSet('guard<', { lengthM: 0.1 }), RULE);
    const b = guarded(0.35);
    flagged(b, RULE, { level: 'fault', subject: b.id('camera') });
  });

  it('a camera made for more volts than there are', () => {
    const b = rear(2.5, { minV: 11 });
    flagged(b, RULE, { level: 'fault', subject: b.id('camera'), repairs: 0 });
  });

  it('no camera, nothing to say', () => {
    quiet(bench(), RULE);
    expect(() => unsure(bench(), RULE, 'rest')).toThrow();
  });
});
