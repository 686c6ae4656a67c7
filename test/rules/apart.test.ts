import { describe, expect, it } from 'vitest';
import { ampsApart, voltsApart } from '../../src/rules/defineRule.ts';
import { clean, flagged } from './harness.ts';
import { fused } from './plans.ts';

describe('two figures that a sentence compares', () => {
  it('are said shortly where they differ, and longer where they would look alike', () => {
    expect(ampsApart(2.125, 1.35)).toEqual(['2.1 A', '1.4 A']);
    expect(ampsApart(1.37, 1.354)).toEqual(['1.37 A', '1.35 A']);
    expect(ampsApart(0.0253, 0.025)).toEqual(['25.3 mA', '25 mA']);
    expect(ampsApart(12.04, 12)).toEqual(['12.04 A', '12 A']);
    expect(voltsApart(4.7481, 4.75)).toEqual(['4.748 V', '4.75 V']);
    expect(voltsApart(4.62, 4.75)).toEqual(['4.62 V', '4.75 V']);
  });

  it('even where one of them is endless, or both are one', () => {
    expect(ampsApart(Number.POSITIVE_INFINITY, 5)).toEqual(['unlimited', '5.0 A']);
    expect(ampsApart(3, 3)).toEqual(['3.0 A', '3.0 A']);
  });
});

/** A camera of so many amps behind a fuse in a place of 65 °C while running: 2 A hold 0.75 × 2 A × 0.9 = 1.35 A (fuse makers’ guides, from memory). */
const hot = (amp: number, ratingA = 2) =>
  fused('hot fuse')
    .zone('dash', { kind: 'dash-top', maxC: 65 })
    .set('fuse', { ratingA })
    .part('camera', 'camera', 'dash', { typA: amp, nightA: amp })
    .wire('fuse.2', 'camera.+', { lengthM: 0.5, areaMm2: 1.5 })
    .wire('camera.-', 'ground.31', { lengthM: 0.5, areaMm2: 1.5 });

describe('findings just over their limit', () => {
  it('a fuse that is a hundredth of an amp too small does not read “must hold 1.4 A, holds 1.4 A”', () => {
    const b = hot(1.36);
    const f = flagged(b, 'fuse-too-small', { level: 'fault', subject: b.id('fuse') });
    const said = f.what.match(/[\d.]+ A\b/g)!;
    expect(said[0]).not.toBe(said[2]);
    clean(hot(1.2), 'fuse-too-small');
  });
});
