import { describe, expect, it } from 'vitest';
import { BOARD_SUPPLY, BOARDS } from '../../src/trade/boards.ts';
import { CONVERTERS, LINEAR_7805 } from '../../src/trade/converters.ts';
import { HEADER } from '../../src/trade/header.ts';
import { DISPLAYS, USB } from '../../src/trade/loads.ts';
import { ALL_PINS_A, JESD8C, LOGIC } from '../../src/trade/logic.ts';
import { CLAMPS, DIODES, OPTOS } from '../../src/trade/semiconductors.ts';

describe('JEDEC JESD8C.01, 3.3 V LVTTL (from memory; the four levels also read in a processor data sheet)', () => {
  it('reads low below 0.8 V and high above 2.0 V; drives below 0.4 V and above 2.4 V; 3.0 to 3.6 V supply', () => {
    expect(JESD8C).toEqual({ supplyMinV: 3.0, supplyMaxV: 3.6, vIlMaxV: 0.8, vIhMinV: 2.0, vOlMaxV: 0.4, vOhMinV: 2.4 });
  });

  it('an unknown board is judged by levels no looser than the standard', () => {
    expect(LOGIC.unknown.vIlMaxV).toBeLessThanOrEqual(0.8);
    expect(LOGIC.unknown.vIhMinV).toBeGreaterThanOrEqual(2.0);
  });
});

describe('board maker’s pin voltage tables (read)', () => {
  it('first to third generation', () => {
    expect(LOGIC.older).toMatchObject({ vIlMaxV: 0.9, vIhMinV: 1.6, leakA: 5e-6, pullMinOhm: 50e3, pullMaxOhm: 65e3, driveDefaultA: 0.008, driveMaxA: 0.016 });
  });
  it('fourth generation', () => {
    expect(LOGIC.newer).toMatchObject({ vIlMaxV: 0.8, vIhMinV: 2.0, leakA: 10e-6, pullMinOhm: 33e3, pullMaxOhm: 73e3, driveDefaultA: 0.004, driveMaxA: 0.008 });
  });
  it('an unknown generation takes the worse of both in every figure', () => {
    const { older, newer, unknown } = LOGIC;
    expect(unknown.vIlMaxV).toBe(Math.min(older.vIlMaxV, newer.vIlMaxV));
    expect(unknown.vIhMinV).toBe(Math.max(older.vIhMinV, newer.vIhMinV));
    expect(unknown.leakA).toBe(Math.max(older.leakA, newer.leakA));
    expect(unknown.pullMinOhm).toBe(Math.min(older.pullMinOhm, newer.pullMinOhm));
    expect(unknown.pullMaxOhm).toBe(Math.max(older.pullMaxOhm, newer.pullMaxOhm));
    expect(unknown.driveDefaultA).toBe(Math.min(older.driveDefaultA, newer.driveDefaultA));
    expect(unknown.driveMaxA).toBe(Math.min(older.driveMaxA, newer.driveMaxA));
  });
  it('all pins together 50 mA', () => {
    expect(ALL_PINS_A).toBe(0.05);
  });
});

describe('40-pin header', () => {
  it('supply and ground pins (from memory)', () => {
    const pins = (rail: string) => HEADER.filter((p) => p.rail === rail).map((p) => p.pin);
    expect(pins('5V')).toEqual([2, 4]);
    expect(pins('3V3')).toEqual([1, 17]);
    expect(pins('GND')).toEqual([6, 9, 14, 20, 25, 30, 34, 39]);
  });
  it('GPIO 0 to 8 are pulled up at reset and 9 to 27 down (board maker’s pin utility, read)', () => {
    for (const { gpio, bootPull } of HEADER) {
      if (gpio !== null) expect(bootPull, `GPIO ${gpio}`).toBe(gpio <= 8 ? 'up' : 'down');
    }
  });
  // Positions from memory.
  it.each([
    [3, 2],
    [5, 3],
    [7, 4],
    [8, 14],
    [10, 15],
    [11, 17],
    [12, 18],
    [13, 27],
    [26, 7],
    [27, 0],
    [29, 5],
    [33, 13],
    [36, 16],
    [37, 26],
    [40, 21],
  ])('pin %s carries GPIO %s', (pin, gpio) => {
    expect(HEADER[pin - 1]).toMatchObject({ pin, gpio });
  });
});

describe('optocoupler data sheets', () => {
  it('4N25 of two makers (read): V_F 1.2 typical, 1.5 V at most at 10 mA; CTR 20 % at least; V_CE(sat) 0.5 V; dark 50 nA; 30 V', () => {
    expect(OPTOS['4n25']).toMatchObject({ vFTypV: 1.2, vFMaxV: 1.5, vFTestA: 0.01, ctrMin: 0.2, ctrTestA: 0.01, vCeSatMaxV: 0.5, darkA: 50e-9, vCeMaxV: 30 });
  });
  it('4N25 reverse voltage: 3 V, the lowest of the makers (from memory)', () => {
    expect(OPTOS['4n25'].reverseV).toBe(3);
  });
  it('4N35 (read): CTR 100 % at least at 10 mA, V_CE(sat) 0.3 V', () => {
    expect(OPTOS['4n35']).toMatchObject({ ctrMin: 1, ctrTestA: 0.01, vCeSatMaxV: 0.3 });
  });
  it('817 of two makers (read): V_F 1.4 V at most at 20 mA; V_CE(sat) 0.2 V; dark 100 nA; LED 50 mA and 6 V backwards', () => {
    expect(OPTOS['817a']).toMatchObject({ vFMaxV: 1.4, vFTestA: 0.02, vCeSatMaxV: 0.2, darkA: 100e-9, maxA: 0.05, reverseV: 6, ctrTestA: 0.005 });
  });
  it.each([
    ['817a', 0.8, 1.6],
    ['817b', 1.3, 2.6],
  ] as const)('%s rank: CTR %s to %s at 5 mA (read)', (type, ctrMin, ctrMax) => {
    expect(OPTOS[type]).toMatchObject({ ctrMin, ctrMax });
  });
});

describe('diode and clamp data sheets', () => {
  it('1N4148: 1.0 V at most at 10 mA, 100 V peak, 150 mA (read)', () => {
    expect(DIODES['1n4148']).toMatchObject({ vFMaxV: 1.0, vFTestA: 0.01, reverseV: 100, averageA: 0.15 });
  });
  it('1N4007: 1000 V, 1 A, 30 A surge (read)', () => {
    expect(DIODES['1n4007']).toMatchObject({ reverseV: 1000, averageA: 1, surgeA: 30 });
  });
  it('1N5819: 40 V, 0.6 V at 1 A (read): below a clamped load dump plus its opposite, so not for the vehicle side', () => {
    expect(DIODES['1n5819']).toMatchObject({ reverseV: 40, vFMaxV: 0.6 });
  });
  it('24 V stand-off clamp: breaks down at 26.7 to 29.5 V, holds 38.9 V at 15.4 A (read)', () => {
    expect(CLAMPS['24v']).toMatchObject({ standoffV: 24, brMinV: 26.7, brMaxV: 29.5, clampV: 38.9, peakA: 15.4 });
  });
  it('a 600 W clamp takes 0.87 J in its rated 10/1000 us pulse (calculated: exponential, half in 1 ms)', () => {
    expect(CLAMPS['24v'].energyJ).toBeCloseTo((600 * 1e-3) / Math.LN2, 2);
  });
  it('rated clamp voltage x peak current gives the rated power within 2 % (calculated)', () => {
    for (const c of Object.values(CLAMPS)) expect(Math.abs((c.clampV * c.peakA) / c.pulseW - 1), c.title).toBeLessThan(0.02);
  });
});

describe('converter data sheets', () => {
  it('2596 class: 80 % at 12 V in, 5 V 3 A out; 1.5 V switch drop; 45 V absolute maximum; 4 % (read)', () => {
    expect(CONVERTERS['older-3a']).toMatchObject({ etaFull: 0.8, dropV: 1.5, absMaxV: 45, setTol: 0.04, startV: 7, ratedA: 3 });
  });
  it('7805: 2 V drop-out, 35 V at most, 8 mA quiescent at most, 65 K/W bare (read)', () => {
    expect(LINEAR_7805).toMatchObject({ dropV: 2, absMaxV: 35, quiescentMaxA: 0.008, rthKPerW: 65 });
  });
});

describe('board maker’s power-supply page (read), newest class from memory', () => {
  it.each([
    ['low-power', 0.055, 0.1, 0.35, 1.2],
    ['mid-power', 0.1, 0.3, 1.34, 2.5],
    ['high-power', 0.023, 0.6, 1.25, 3.0],
    ['newest', 0.3, 0.65, 2.4, 5.0],
  ] as const)('%s: off %s, idle %s, peak %s, supply %s A', (kind, offA, idleA, peakA, recommendedA) => {
    expect(BOARDS[kind]).toMatchObject({ offA, idleA, peakA, recommendedA });
  });
  it('undervoltage is reported at 4.63 V, 5 % either way; header window 5 V, 5 % (read)', () => {
    expect(BOARD_SUPPLY.warnMinV).toBeCloseTo(4.63 * 0.95, 2);
    expect(BOARD_SUPPLY.warnMaxV).toBeCloseTo(4.63 * 1.05, 2);
    expect([BOARD_SUPPLY.minV, BOARD_SUPPLY.maxV]).toEqual([4.75, 5.25]);
  });
  it('4.3-inch display: 0.24 A at full brightness (display maker’s measurement, read)', () => {
    expect(DISPLAYS['4.3'].fullA).toBe(0.24);
  });
});

describe('USB 2.0 as summarised in connector handbooks (read)', () => {
  it('host 4.75 to 5.25 V, low-power device 4.40 V, unit load 0.1 A, configured 0.5 A, cable 5 m', () => {
    expect(USB).toMatchObject({ portMinV: 4.75, portMaxV: 5.25, lowPowerDeviceMinV: 4.4, unitLoadA: 0.1, configuredMaxA: 0.5, cableMaxM: 5 });
  });
});
