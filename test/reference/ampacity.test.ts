/**
 * The planning limit must never exceed a published table: every size, insulation, bundle and temperature.
 * A gauge is compared with what this house allows for the next metric size below it, so no cell is interpolated.
 */
import { describe, expect, it } from 'vitest';
import { planningLimit } from '../../src/trade/ampacity.ts';
import { awgAreaMm2 } from '../../src/trade/conductors.ts';

/** 33 CFR 183.425 table 5, single conductor in 30 °C air, A (read). Columns: insulation °C. */
const CFR_COLUMNS = [60, 75, 80, 90, 105, 125] as const;
const CFR: Readonly<Record<number, readonly number[]>> = {
  18: [10, 10, 15, 20, 20, 25],
  16: [15, 15, 20, 25, 25, 30],
  14: [20, 20, 25, 30, 35, 40],
  12: [25, 25, 35, 40, 45, 50],
  10: [40, 40, 50, 55, 60, 70],
  8: [55, 65, 70, 70, 80, 90],
  6: [80, 95, 100, 100, 120, 125],
  4: [105, 125, 130, 135, 160, 170],
  2: [140, 170, 175, 180, 210, 225],
  1: [165, 195, 210, 210, 245, 265],
};
/** Note 1 of that table, engine space at 50 °C: 0.85 at 105 °C read, the rest from memory. */
const CFR_ENGINE: Readonly<Record<number, number>> = { 60: 0.58, 75: 0.75, 80: 0.78, 90: 0.82, 105: 0.85, 125: 0.89 };
/** ABYC E-11 bundle factors as printed by a boat-cable maker (read; 25 and more from memory). */
const abycBundle = (n: number): number => (n <= 2 ? 1 : n === 3 ? 0.7 : n <= 6 ? 0.6 : n <= 24 ? 0.5 : 0.4);

/** ABYC E-11, 105 °C, as printed by a boat-cable maker (read): outside and engine space for up to 2, 3, 4..6, 7..24 conductors. */
const ABYC_105: Readonly<Record<number, readonly (readonly [outsideA: number, engineA: number])[]>> = {
  18: [
    [20, 17],
    [14, 11.9],
    [12, 10.2],
    [10, 8.5],
  ],
  16: [
    [25, 21.3],
    [17.5, 14.9],
    [15, 12.8],
    [12.5, 10.6],
  ],
  14: [
    [35, 29.8],
    [24.5, 20.8],
    [21, 17.9],
    [17.5, 14.9],
  ],
  12: [
    [45, 38.3],
    [31.5, 26.8],
    [27, 23],
    [22.5, 19.1],
  ],
  10: [
    [60, 51],
    [42, 35.7],
    [36, 30.6],
    [30, 25.5],
  ],
  8: [
    [80, 68],
    [56, 47.6],
    [48, 40.8],
    [40, 34],
  ],
  6: [
    [120, 102],
    [84, 71.4],
    [72, 61.2],
    [60, 51],
  ],
  4: [
    [160, 136],
    [112, 95.2],
    [96, 81.6],
    [80, 68],
  ],
  2: [
    [210, 178.5],
    [147, 125],
    [126, 107.1],
    [105, 89.3],
  ],
};
const ABYC_COUNTS = [[1, 2], [3], [4, 5, 6], [7, 8, 9, 10, 24]] as const;

/** ISO 10133:2012 table A.1, 30 °C air, A (from memory). Columns: insulation °C. */
const ISO_COLUMNS = [70, 85, 105, 125] as const;
const ISO: Readonly<Record<number, readonly number[]>> = {
  0.75: [10, 12, 16, 20],
  1: [14, 18, 20, 25],
  1.5: [18, 21, 25, 30],
  2.5: [25, 30, 35, 40],
  4: [35, 40, 45, 50],
  6: [45, 50, 60, 70],
  10: [65, 70, 90, 100],
  16: [90, 100, 130, 150],
  25: [120, 140, 170, 185],
};
/** Bundle factors that circulate with it (from memory). */
const isoBundle = (n: number): number => (n <= 3 ? 1 : n <= 6 ? 0.7 : n <= 24 ? 0.6 : 0.5);

/** Steady heat balance from the tables' 30 °C, never above 1: the marine factors are this rule rounded (calculated). */
const ambient = (insulationC: number, zoneC: number): number => Math.min(1, Math.sqrt(Math.max(0, insulationC - zoneC) / (insulationC - 30)));

const COUNTS = [1, 2, 3, 4, 6, 7, 9, 10, 24, 25, 60];
const ZONES_C = [-30, 0, 20, 30, 40, 50, 60, 70, 80, 85, 100, 105, 120];

describe('33 CFR 183.425 table 5 with ABYC E-11 bundles: the planning limit stays at or below every cell', () => {
  for (const insulationC of CFR_COLUMNS) {
    it(`${insulationC} °C insulation, every gauge, bundle and temperature`, () => {
      for (const [awg, row] of Object.entries(CFR)) {
        const cellA = row[CFR_COLUMNS.indexOf(insulationC)]!;
        for (const n of COUNTS) {
          for (const zoneC of ZONES_C) {
            const publishedA = cellA * abycBundle(n) * ambient(insulationC, zoneC);
            const ours = planningLimit(awgAreaMm2(Number(awg)), insulationC, zoneC, n).limitA;
            expect(ours, `AWG ${awg}, ${insulationC} °C insulation, ${n} wires, ${zoneC} °C`).toBeLessThanOrEqual(publishedA + 1e-9);
          }
        }
      }
    });

    it(`${insulationC} °C insulation in an engine space at 50 °C (note 1)`, () => {
      for (const [awg, row] of Object.entries(CFR)) {
        for (const n of COUNTS) {
          const publishedA = row[CFR_COLUMNS.indexOf(insulationC)]! * abycBundle(n) * CFR_ENGINE[insulationC]!;
          expect(planningLimit(awgAreaMm2(Number(awg)), insulationC, 50, n).limitA, `AWG ${awg}, ${n} wires`).toBeLessThanOrEqual(publishedA);
        }
      }
    });
  }
});

describe('ABYC E-11, 105 °C insulation, printed cells (read)', () => {
  it.each(Object.keys(ABYC_105).map(Number))('AWG %s: outside at 30 °C and engine space at 50 °C, every bundle', (awg) => {
    ABYC_105[awg]!.forEach(([outsideA, engineA], i) => {
      for (const n of ABYC_COUNTS[i]!) {
        expect(planningLimit(awgAreaMm2(awg), 105, 30, n).limitA).toBeLessThanOrEqual(outsideA);
        expect(planningLimit(awgAreaMm2(awg), 105, 50, n).limitA).toBeLessThanOrEqual(engineA);
      }
    });
  });

  it('metric sizes between two gauges, interpolated by area, three to twenty-four wires at 50 °C', () => {
    const at = (areaMm2: number, column: number): number => {
      const points = Object.keys(ABYC_105).map((awg) => [awgAreaMm2(Number(awg)), ABYC_105[Number(awg)]![column]![1]] as const);
      points.sort((a, b) => a[0] - b[0]);
      const i = points.findIndex(([area]) => area >= areaMm2);
      const [x0, y0] = points[i - 1]!;
      const [x1, y1] = points[i]!;
      return y0 * (areaMm2 / x0) ** (Math.log(y1 / y0) / Math.log(x1 / x0));
    };
    for (const areaMm2 of [1, 1.5, 2.5, 4, 6, 10, 16, 25]) {
      expect(planningLimit(areaMm2, 105, 50, 3).limitA, `${areaMm2} mm2, 3`).toBeLessThanOrEqual(at(areaMm2, 1));
      expect(planningLimit(areaMm2, 105, 50, 6).limitA, `${areaMm2} mm2, 6`).toBeLessThanOrEqual(at(areaMm2, 2));
      expect(planningLimit(areaMm2, 105, 50, 9).limitA, `${areaMm2} mm2, 9`).toBeLessThanOrEqual(at(areaMm2, 3));
    }
  });
});

describe('ISO 10133 table A.1 (from memory) with its bundle factors', () => {
  it.each(ISO_COLUMNS.map((c, i) => [c, i] as const))('%s °C insulation: every size, bundle and temperature', (insulationC, column) => {
    for (const [area, row] of Object.entries(ISO)) {
      for (const n of COUNTS) {
        for (const zoneC of ZONES_C) {
          const publishedA = row[column]! * isoBundle(n) * ambient(insulationC, zoneC);
          const ours = planningLimit(Number(area), insulationC, zoneC, n).limitA;
          expect(ours, `${area} mm2, ${insulationC} °C insulation, ${n} wires, ${zoneC} °C`).toBeLessThanOrEqual(publishedA + 1e-9);
        }
      }
    }
  });
});

describe('the table is low on purpose, not by accident', () => {
  it('somewhere it uses more than 90 % of a published cell, so a table a tenth higher would fail above', () => {
    let closest = 0;
    for (const [area, row] of Object.entries(ISO)) {
      for (const n of COUNTS) {
        for (const zoneC of ZONES_C) {
          ISO_COLUMNS.forEach((insulationC, column) => {
            const publishedA = row[column]! * isoBundle(n) * ambient(insulationC, zoneC);
            if (publishedA > 0) closest = Math.max(closest, planningLimit(Number(area), insulationC, zoneC, n).limitA / publishedA);
          });
        }
      }
    }
    for (const [awg, row] of Object.entries(CFR)) {
      for (const n of COUNTS) {
        CFR_COLUMNS.forEach((insulationC, column) => {
          closest = Math.max(closest, planningLimit(awgAreaMm2(Number(awg)), insulationC, 30, n).limitA / (row[column]! * abycBundle(n)));
        });
      }
    }
    expect(closest).toBeGreaterThan(1 / 1.1);
    expect(closest).toBeLessThanOrEqual(1);
  });
});

describe('factors', () => {
  // US electrical code 2014 table 310.15(B)(3)(a): 80 % for 4 to 6, 70 % for 7 to 9 (read).
  it.each([
    [4, 0.8],
    [6, 0.8],
    [7, 0.7],
    [9, 0.7],
  ])('%s loaded wires: %s', (n, kN) => {
    expect(planningLimit(1, 105, 60, n).kN).toBe(kN);
  });

  // Heat balance against 105 °C insulation at 60 °C (calculated).
  it.each([
    [70, 60, 0.47],
    [85, 70, 0.58],
    [105, 60, 1],
    [105, 70, 0.88],
    [125, 105, 0.67],
  ])('%s °C insulation at %s °C: k_T %s', (insulationC, zoneC, kT) => {
    expect(planningLimit(1, insulationC, zoneC, 1).kT).toBeCloseTo(kT, 2);
  });
});
