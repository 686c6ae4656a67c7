import { describe, expect, it } from 'vitest';
import {
  adiabaticK,
  BREAKING_A,
  bladeColour,
  coldOhm,
  gateMaxS,
  gateMinS,
  LOADING,
  meltI2t,
  shortCircuitEndC,
  TAP_DISTANCE_M,
  tempFactor,
} from '../../src/trade/fuses.ts';

describe('ISO 8820-3 colours of regular blades', () => {
  // Basis per row: 1, 2, 4, 10 and 15 A read in public copies of a fuse maker's sheet; the rest from memory.
  it.each([
    [1, 'black', 'BK'],
    [2, 'grey', 'GY'],
    [3, 'violet', 'VT'],
    [4, 'pink', 'PK'],
    [5, 'tan (light brown)', null],
    [7.5, 'brown', 'BN'],
    [10, 'red', 'RD'],
    [15, 'blue', 'BU'],
    [20, 'yellow', 'YE'],
    [25, 'natural (clear)', null],
    [30, 'light green', 'GN'],
    [40, 'orange (amber)', 'OG'],
  ])('%s A is %s', (ratingA, name, letters) => {
    expect(bladeColour(ratingA)).toMatchObject({ name, letters });
  });
});

describe('ISO 8820-3 operating-time gates, types C and F (from memory)', () => {
  it.each([
    [1.35, 0.75, 600],
    [1.6, 0.25, 50],
    [2, 0.15, 5],
    [3.5, 0.04, 0.5],
    [6, 0.02, 0.1],
  ])('at %s x rating between %s s and %s s', (ratio, minS, maxS) => {
    expect(gateMinS(ratio)).toBeCloseTo(minS, 9);
    expect(gateMaxS(ratio)).toBeCloseTo(maxS, 9);
  });

  it('carries 1.10 x its rating for 100 h, and need not open below 1.35 x', () => {
    expect(gateMinS(1.1)).toBeCloseTo(360000, 6);
    expect(gateMinS(1.09)).toBe(Number.POSITIVE_INFINITY);
    expect(gateMaxS(1.34)).toBe(Number.POSITIVE_INFINITY);
  });

  it('the longest time never grows with the current, nor falls below the shortest', () => {
    let before = Number.POSITIVE_INFINITY;
    for (let ratio = 1.1; ratio < 40; ratio *= 1.01) {
      const maxS = gateMaxS(ratio);
      expect(maxS).toBeLessThanOrEqual(before);
      expect(maxS).toBeGreaterThan(gateMinS(ratio));
      before = maxS;
    }
  });
});

describe('a fuse maker’s sheet for regular blades', () => {
  it.each([
    [1, 123],
    [2, 53.5],
    [4, 22.8],
    [10, 7.7],
    [20, 3.38],
    [25, 2.52],
  ])('%s A: cold resistance %s mohm (read)', (ratingA, milliohm) => {
    expect(coldOhm(ratingA) * 1000).toBeCloseTo(milliohm, 9);
  });

  it('25 A melts at 1000 A2s (read)', () => {
    expect(meltI2t(25)).toBe(1000);
  });

  it('breaks 1000 A (ISO 8820-3 abstract, read)', () => {
    expect(BREAKING_A).toBe(1000);
  });
});

describe('habits', () => {
  it('loaded to 75 % at 25 °C (fuse makers’ guides, from memory)', () => {
    expect(LOADING).toBe(0.75);
  });

  it.each([
    [25, 1],
    [45, 0.95],
    [65, 0.9],
    [85, 0.85],
    [-30, 1],
  ])('at %s °C carries %s of its rating (common practice, no source)', (tempC, share) => {
    expect(tempFactor(tempC)).toBeCloseTo(share, 9);
  });

  it('the house limits from the tap are stricter than 33 CFR 183.455: 178 mm, 1016 mm sheathed (read)', () => {
    expect(TAP_DISTANCE_M.advice).toBeLessThan(0.178);
    expect(TAP_DISTANCE_M.hazard).toBeLessThan(1.016);
  });
});

describe('adiabatic constant of copper, IEC 60364-5-54 annex A (from memory)', () => {
  it.each([
    [70, 160, 115, 0.6],
    [90, 250, 143, 0.6],
    [30, 160, 143, 1.1],
    [30, 250, 176, 0.6],
  ])('%s to %s °C: k = %s', (fromC, toC, k, tolerance) => {
    expect(Math.abs(adiabaticK(fromC, toC) - k)).toBeLessThan(tolerance);
  });

  it('vehicle wire at 105 °C: PVC to 160 °C 88, cross-linked to 250 °C 135 (calculated)', () => {
    expect(Math.round(adiabaticK(105, shortCircuitEndC(105)))).toBe(88);
    expect(Math.round(adiabaticK(105, shortCircuitEndC(125)))).toBe(135);
  });
});
