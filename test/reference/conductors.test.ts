import { describe, expect, it } from 'vitest';
import { AREAS_MM2, awgAreaMm2, awgDiameterMm, awgLabel, COPPER_OHM_MM2_PER_M, coldOhmPerM, copperTempFactor, ohmPerM } from '../../src/trade/conductors.ts';

describe('IEC 60228 class 5 maximum resistance at 20 °C (read in two cable-engineering pages and one cable maker’s page, which agree)', () => {
  it.each([
    [0.5, 39.0],
    [0.75, 26.0],
    [1, 19.5],
    [1.5, 13.3],
    [2.5, 7.98],
    [4, 4.95],
    [6, 3.3],
    [10, 1.91],
    [16, 1.21],
    [25, 0.78],
  ])('%s mm2: %s mohm/m', (areaMm2, milliohm) => {
    expect(ohmPerM(areaMm2, 20) * 1000).toBeCloseTo(milliohm, 6);
  });

  it('sizes below the standard’s range follow ISO 6722-1 (from memory)', () => {
    expect(ohmPerM(0.22, 20) * 1000).toBeCloseTo(84.8, 6);
    expect(ohmPerM(0.35, 20) * 1000).toBeCloseTo(54.4, 6);
  });

  it('no row lies below rho / A of IEC 60028 copper, nor more than 17 % above it (calculated)', () => {
    for (const areaMm2 of AREAS_MM2) {
      const ratio = ohmPerM(areaMm2, 20) / (0.017241 / areaMm2);
      expect(ratio, `${areaMm2} mm2`).toBeGreaterThan(1.05);
      expect(ratio, `${areaMm2} mm2`).toBeLessThan(1.17);
    }
  });
});

describe('copper and temperature', () => {
  it('IEC 60028 resistivity 0.017241 ohm mm2/m (read): 1 mm2 cold is 17.241 mohm/m', () => {
    expect(COPPER_OHM_MM2_PER_M).toBe(0.017241);
    expect(coldOhmPerM(1)).toBeCloseTo(0.017241, 9);
  });

  it('a copper wire at 60 °C has 1.157 times its resistance at 20 °C (IEC 60028 coefficient, from memory)', () => {
    expect(copperTempFactor(60)).toBeCloseTo(1.1572, 4);
    expect(ohmPerM(0.5, 60) * 1000).toBeCloseTo(45.13, 2);
    expect(ohmPerM(1.5, 60) * 1000).toBeCloseTo(15.39, 2);
  });

  // IEC 60228 annex, factor k_t that converts a resistance at t to 20 °C, as printed by a cable maker (read).
  // The printed factors are 250 / (230 + t), the coefficient rounded to 0.004; ours must agree to 0.5 %.
  it.each([
    [5, 1.064],
    [10, 1.042],
    [25, 0.98],
    [40, 0.926],
    [60, 0.862],
    [85, 0.794],
    [100, 0.758],
  ])('IEC 60228 annex: at %s °C k_t is %s', (tempC, kt) => {
    const ours = ohmPerM(1, 20) / ohmPerM(1, tempC);
    expect(Math.abs(ours / kt - 1)).toBeLessThan(0.005);
  });
});

describe('ASTM B258: diameter and area of AWG wires, printed values of an AWG table in a public engineering notebook (read)', () => {
  it.each([
    [26, 0.405, 0.129],
    [24, 0.511, 0.205],
    [22, 0.644, 0.326],
    [20, 0.812, 0.518],
    [18, 1.02, 0.823],
    [16, 1.29, 1.31],
    [14, 1.63, 2.08],
    [12, 2.05, 3.31],
    [10, 2.59, 5.26],
  ])('AWG %s: %s mm, %s mm2', (awg, diameterMm, areaMm2) => {
    expect(Number(awgDiameterMm(awg).toPrecision(3))).toBeCloseTo(diameterMm, 6);
    expect(Number(awgAreaMm2(awg).toPrecision(3))).toBeCloseTo(areaMm2, 6);
  });

  // Theoretical areas in an audio connector maker's glossary (read).
  it.each([
    [18, 0.823047],
    [11, 4.172286],
  ])('AWG %s: %s mm2', (awg, areaMm2) => {
    expect(Math.abs(awgAreaMm2(awg) - areaMm2)).toBeLessThan(0.0002);
  });

  it('AWG 36 is 5 mil and AWG 0 is 0.325 in thick (ASTM B258, from memory)', () => {
    expect(awgDiameterMm(36)).toBeCloseTo(0.127, 9);
    expect(awgDiameterMm(0) / 25.4).toBeCloseTo(0.3249, 4);
  });

  it('solid AWG 20 is 33.3 mohm/m (calculated from ASTM B258 and IEC 60028; a notebook prints 33.5, read)', () => {
    expect(coldOhmPerM(awgAreaMm2(20)) * 1000).toBeCloseTo(33.31, 2);
  });
});

describe('metric size to gauge: pairs of a vehicle maker’s wiring manual of 1998 (read)', () => {
  it.each([
    [0.35, 22],
    [0.5, 20],
    [0.75, 18],
    [1, 16],
    [1.5, 14],
    [2.5, 12],
    [4, 10],
    [6, 8],
    [16, 4],
    [25, 2],
  ])('%s mm2 is bought as AWG %s', (areaMm2, awg) => {
    expect(awgLabel(areaMm2)).toBe(`AWG ${awg}`);
  });
});
