import { describe, expect, it } from 'vitest';
import { planningLimit } from '../../src/trade/ampacity.ts';
import { CAUTIONS } from '../../src/trade/cautions.ts';
import { colourText } from '../../src/trade/colours.ts';
import { AREAS_MM2, nextAreaUp, ohmPerM } from '../../src/trade/conductors.ts';
import { BLADE_FUSES, BLADE_RATINGS_A, bladeColour, clearTimeMaxS, coldOhm, meltI2t } from '../../src/trade/fuses.ts';
import { consoleRoles, GOOD_GPIOS, gpioPin, HEADER, headerPin, i2cRoles, nearestGrounds } from '../../src/trade/header.ts';
import { isLive } from '../../src/trade/lines.ts';
import { DISPLAYS, type DisplaySize, displayA } from '../../src/trade/loads.ts';
import { EXTRA_STATES, STATES, supplyCorners, supplyV } from '../../src/trade/supply.ts';
import type { DipLevel, Line, VehicleState, ZoneKind } from '../../src/trade/words.ts';
import { ZONES } from '../../src/trade/zones.ts';

const LEVELS: readonly DipLevel[] = ['I', 'II', 'III', 'IV'];
const ALL_STATES: readonly VehicleState[] = [...STATES, ...EXTRA_STATES];

describe('conductors', () => {
  it('thicker wires resist less, between the table sizes too', () => {
    let before = Number.POSITIVE_INFINITY;
    for (let areaMm2 = 0.06; areaMm2 < 100; areaMm2 *= 1.03) {
      const ohm = ohmPerM(areaMm2, 20);
      expect(ohm, `${areaMm2}`).toBeLessThan(before);
      before = ohm;
    }
  });
  it('the next size up is the size itself or the one above; nothing above 25 mm2', () => {
    expect(nextAreaUp(1.5)).toBe(1.5);
    expect(nextAreaUp(1.51)).toBe(2.5);
    expect(nextAreaUp(26)).toBeNull();
  });
});

describe('planning limit', () => {
  it('the worked figures: 15 A for 1.5 mm2, less when hot or bundled', () => {
    expect(planningLimit(1.5, 105, 60, 3)).toEqual({ baseA: 15, kT: 1, kN: 1, limitA: 15 });
    expect(planningLimit(1.5, 105, 70, 6).limitA).toBeCloseTo(15 * Math.sqrt(35 / 45) * 0.8, 9);
    expect(planningLimit(0.5, 70, 80, 1).limitA).toBe(0);
  });
  it('never rises with heat or company, never falls with size or insulation', () => {
    for (const areaMm2 of AREAS_MM2) {
      for (const insulationC of [70, 85, 105, 125]) {
        for (const zoneC of [20, 60, 85, 105]) {
          for (const n of [1, 3, 4, 9, 10, 30]) {
            const { limitA } = planningLimit(areaMm2, insulationC, zoneC, n);
            expect(planningLimit(areaMm2, insulationC, zoneC + 5, n).limitA).toBeLessThanOrEqual(limitA);
            expect(planningLimit(areaMm2, insulationC, zoneC, n + 1).limitA).toBeLessThanOrEqual(limitA);
            expect(planningLimit(areaMm2 * 1.3, insulationC, zoneC, n).limitA).toBeGreaterThanOrEqual(limitA);
            expect(planningLimit(areaMm2, insulationC + 15, zoneC, n).limitA).toBeGreaterThanOrEqual(limitA);
          }
        }
      }
    }
  });
  it('a size or class between two rows counts as the lower one', () => {
    expect(planningLimit(2, 105, 60, 1).baseA).toBe(15);
    expect(planningLimit(1, 110, 80, 1)).toEqual(planningLimit(1, 105, 80, 1));
  });
  it('below the smallest row it shrinks with the area; insulation below 70 °C is given nothing', () => {
    expect(planningLimit(0.11, 105, 60, 1).baseA).toBeCloseTo(1, 9);
    expect(planningLimit(1, 60, 20, 1).limitA).toBe(0);
  });
  it('no wires together counts as one', () => {
    expect(planningLimit(1, 105, 60, 0)).toEqual(planningLimit(1, 105, 60, 1));
  });
});

describe('fuses', () => {
  it('resistance falls and melting integral rises with the rating', () => {
    for (let i = 1; i < BLADE_FUSES.length; i++) {
      expect(BLADE_FUSES[i]!.coldMilliohm).toBeLessThan(BLADE_FUSES[i - 1]!.coldMilliohm);
      expect(BLADE_FUSES[i]!.meltI2t).toBeGreaterThan(BLADE_FUSES[i - 1]!.meltI2t);
    }
  });
  it('a rating without a blade still has figures, and no colour', () => {
    expect(coldOhm(8)).toBeGreaterThan(coldOhm(10));
    expect(coldOhm(60)).toBeLessThan(coldOhm(40));
    expect(meltI2t(60)).toBeGreaterThan(meltI2t(40));
    expect(bladeColour(8)).toMatchObject({ name: 'no standard colour', letters: null });
    expect(BLADE_RATINGS_A).not.toContain(8);
  });
  it('a hard short opens within the gate, and no faster than twice the melting integral allows', () => {
    expect(clearTimeMaxS(5, 10)).toBeCloseTo(5, 9);
    expect(clearTimeMaxS(5, 6)).toBe(Number.POSITIVE_INFINITY);
    expect(clearTimeMaxS(30, 600)).toBeCloseTo(Math.max(3.6 / 400, (2 * 1510) / 600 ** 2), 9);
  });
});

describe('lines and states', () => {
  const expected: Readonly<Record<VehicleState, string>> = {
    ISOLATED: '',
    OFF_ASLEEP: '30',
    OFF_AWAKE: '30',
    ACC: '30 75 75r 58',
    RUN_STOPPED: '30 15 75 75r 58 reverse',
    START: '30 15 50',
    RUN_CHARGING: '30 15 75 75r 58 reverse',
    RETAIN: '30 75r',
    RETAIN_DOOR: '30',
    AUTO_STOP: '30 15 75 75r 58',
    AUTO_CRANK: '30 15 75 75r 50 58',
    REMOTE_RUN: '30 15',
    PARKED_CHARGE: '30',
    ISOLATED_RUNNING: '30 15 75 75r 58',
  };
  it.each(ALL_STATES)('%s', (state) => {
    const lines: readonly Line[] = ['30', '15', '75', '75r', '50', '58', 'reverse', '31'];
    const live = lines.filter((line) => isLive(line, state));
    expect(live.join(' ')).toBe(expected[state]);
  });
  it('nine base states, no state twice', () => {
    expect(STATES).toHaveLength(9);
    expect(new Set(ALL_STATES).size).toBe(14);
  });
});

describe('supply', () => {
  // Common practice; design table of the vehicle's states.
  it.each([
    ['OFF_ASLEEP', 11.8, 12.6, 12.9],
    ['OFF_AWAKE', 11.5, 12.5, 13.5],
    ['ACC', 11, 12.2, 12.8],
    ['RUN_STOPPED', 10.5, 12, 12.8],
    ['START', 8.5, 10.5, 11.5],
    ['RUN_CHARGING', 13, 14.2, 16],
    ['RETAIN', 11.5, 12.5, 13.5],
    ['ISOLATED', 0, 0, 0],
  ] as const)('12 V %s: %s | %s | %s', (state, low, typical, high) => {
    expect(supplyV(12, state, 'I')).toEqual({ low, typical, high });
  });
  it('24 V is twice that, except the trough of START: 19, 14, 9 V by level', () => {
    for (const state of ALL_STATES) {
      if (state === 'START' || state === 'AUTO_CRANK') continue;
      const v = supplyV(12, state, 'I');
      expect(supplyV(24, state, 'I')).toEqual({ low: 2 * v.low, typical: 2 * v.typical, high: 2 * v.high });
    }
    expect(LEVELS.map((level) => supplyV(24, 'START', level).low)).toEqual([19, 14, 9, 9]);
    expect(LEVELS.map((level) => supplyV(12, 'START', level).low)).toEqual([8.5, 5.5, 4, 5.5]);
  });
  it('low, typical and high stand in order everywhere, and never above the highest for ever', () => {
    for (const systemV of [12, 24]) {
      for (const level of LEVELS) {
        for (const state of ALL_STATES) {
          const v = supplyV(systemV, state, level);
          expect(v.low).toBeLessThanOrEqual(v.typical);
          expect(v.typical).toBeLessThanOrEqual(v.high);
          expect(v.high).toBeLessThanOrEqual(supplyCorners(systemV, level).hiV);
        }
      }
    }
  });
});

describe('zones', () => {
  it.each(Object.keys(ZONES) as ZoneKind[])('%s: colder than running, running no hotter than soaked', (kind) => {
    const { minC, runningMaxC, maxC } = ZONES[kind];
    expect(minC).toBeLessThan(runningMaxC);
    expect(runningMaxC).toBeLessThanOrEqual(maxC);
  });
});

describe('header', () => {
  it('40 pins in order, GPIO 0 to 27 once each', () => {
    expect(HEADER.map((p) => p.pin)).toEqual(Array.from({ length: 40 }, (_, i) => i + 1));
    const gpios = HEADER.flatMap((p) => (p.gpio === null ? [] : [p.gpio]));
    expect([...gpios].sort((a, b) => a - b)).toEqual(Array.from({ length: 28 }, (_, i) => i));
    expect(HEADER.every((p) => (p.gpio === null) !== (p.rail === null))).toBe(true);
  });
  it('finds pins both ways', () => {
    for (let gpio = 0; gpio <= 27; gpio++) expect(headerPin(gpioPin(gpio).pin).gpio).toBe(gpio);
  });
  it('good pins are free of the console, the fixed pull-ups and reservations', () => {
    for (const gpio of GOOD_GPIOS) {
      const pin = gpioPin(gpio);
      expect(pin.reserved).toBeUndefined();
      expect(pin.fixedPullUpOhm).toBeUndefined();
      expect([...Object.values(consoleRoles), ...Object.values(i2cRoles)]).not.toContain(gpio);
    }
    expect(new Set(GOOD_GPIOS).size).toBe(GOOD_GPIOS.length);
  });
  it('the nearest grounds of pin 11 are 9 and 14', () => {
    expect(nearestGrounds(11).slice(0, 2)).toEqual([9, 14]);
    expect(nearestGrounds(11)).toHaveLength(8);
  });
});

describe('loads', () => {
  it.each(Object.keys(DISPLAYS) as DisplaySize[])('display %s: brighter takes more, never more than the worst', (size) => {
    expect(displayA(size, 0)).toBe(DISPLAYS[size].darkA);
    expect(displayA(size, 1)).toBeCloseTo(DISPLAYS[size].fullA, 12);
    expect(DISPLAYS[size].worstA).toBeGreaterThanOrEqual(DISPLAYS[size].fullA);
  });
});

describe('words', () => {
  it('colours are spelled with their stripe', () => {
    expect(colourText('RD')).toEqual({ letters: 'RD', words: 'red' });
    expect(colourText('RD', 'BU')).toEqual({ letters: 'RD/BU', words: 'red with blue stripe' });
  });
  it('cautions: unique, whole sentences, sign numbers in the form of ISO 7010', () => {
    expect(new Set(CAUTIONS.map((c) => c.id)).size).toBe(CAUTIONS.length);
    for (const c of CAUTIONS) {
      expect(c.text, c.id).toMatch(/^[A-Z].*\.$/);
      if (c.sign !== undefined) expect(c.sign).toMatch(/^[EFMPW]\d{3}$/);
    }
  });
});
