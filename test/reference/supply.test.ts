import { describe, expect, it } from 'vitest';
import { RESTING, stateOfCharge } from '../../src/trade/battery.ts';
import { isLive } from '../../src/trade/lines.ts';
import { crankProfile, supplyCorners, supplyV } from '../../src/trade/supply.ts';

describe('ISO 16750-2', () => {
  it('supply codes A to D end at 16 V, E to H at 32 V; C starts at 9 V and H at 18 V (extract of the 2010 edition, read)', () => {
    expect(supplyCorners(12, 'I')).toMatchObject({ loV: 9, hiV: 16 });
    expect(supplyCorners(24, 'I')).toMatchObject({ loV: 18, hiV: 32 });
  });
  it('jump start 26 V, over-voltage 18 V and 36 V (2023 edition, read second-hand)', () => {
    expect(supplyCorners(12, 'I')).toMatchObject({ jumpV: 26, longV: 18 });
    expect(supplyCorners(24, 'I').longV).toBe(36);
  });
  it('load dump test A up to 101 V and 202 V, 0.5 and 1 ohm, 400 and 350 ms (a journal paper’s table, read)', () => {
    expect(supplyCorners(12, 'I')).toMatchObject({ dumpUnclampedV: 101, dumpOhm: 0.5, dumpS: 0.4 });
    expect(supplyCorners(24, 'I')).toMatchObject({ dumpUnclampedV: 202, dumpOhm: 1, dumpS: 0.35 });
  });
  it('load dump test B clamped to 35 V and 58 V (wave-file library of a test generator, read)', () => {
    expect(supplyCorners(12, 'I').dumpClampedV).toBe(35);
    expect(supplyCorners(24, 'I').dumpClampedV).toBe(58);
  });
  it('battery reversed: 14 V and 28 V (from memory)', () => {
    expect(supplyCorners(12, 'I').reverseV).toBe(14);
    expect(supplyCorners(24, 'I').reverseV).toBe(28);
  });
  // Level I of 12 V and III of 24 V read; the others from memory.
  it.each([
    [12, 'I', 8, 9.5, 1],
    [12, 'II', 4.5, 6.5, 10],
    [12, 'III', 3, 5, 1],
    [12, 'IV', 6, 6.5, 10],
    [24, 'I', 10, 20, 1],
    [24, 'II', 8, 15, 10],
    [24, 'III', 6, 10, 1],
  ] as const)('%s V starting profile %s: %s V, then %s V for %s s', (systemV, level, dipV, plateauV, plateauS) => {
    expect(crankProfile(systemV, level)).toMatchObject({ dipV, plateauV, plateauS });
  });
  it('fall, dip and rise of 12 V last 5, 15 and 50 ms (wave-file library, read)', () => {
    expect(crankProfile(12, 'I')).toMatchObject({ fallS: 0.005, dipS: 0.015, riseS: 0.05 });
  });
  it('the trough of the plateau lies 1 V below it: 2 V ripple peak to peak (read second-hand)', () => {
    expect(supplyV(12, 'START', 'II').low).toBe(5.5);
    expect(supplyV(24, 'START', 'II').low).toBe(14);
  });
});

describe('ISO 7637-2 pulse 1, level IV', () => {
  it('-150 V behind 10 ohm for 2 ms (12 V: trade article, read); -600 V behind 50 ohm for 1 ms (24 V: wave-file library, read)', () => {
    expect(supplyCorners(12, 'I')).toMatchObject({ pulse1V: -150, pulse1Ohm: 10, pulse1S: 0.002 });
    expect(supplyCorners(24, 'I')).toMatchObject({ pulse1V: -600, pulse1Ohm: 50, pulse1S: 0.001 });
  });
});

describe('flooded battery at rest (a battery maker’s service page, 26.7 °C, read)', () => {
  it.each([
    [1, 12.65],
    [0.75, 12.45],
    [0.5, 12.24],
    [0.25, 12.06],
    [0, 11.89],
  ])('%s of full reads %s V', (share, volt) => {
    expect(RESTING.find((r) => r.share === share)!.floodedV).toBe(volt);
    expect(stateOfCharge(volt, 'flooded', 12)).toBeCloseTo(share, 9);
    expect(stateOfCharge(2 * volt, 'flooded', 24)).toBeCloseTo(share, 9);
  });
});

describe('switch contacts (workshop continuity chart of an ignition switch, read)', () => {
  it('run/start closed in Run and Start', () => {
    expect(['RUN_STOPPED', 'RUN_CHARGING', 'START'].every((s) => isLive('15', s as 'START'))).toBe(true);
    expect(isLive('15', 'ACC')).toBe(false);
  });
  it('run/accessory closed in Accessory and Run, open in Off and Start', () => {
    expect(isLive('75', 'ACC') && isLive('75', 'RUN_STOPPED')).toBe(true);
    expect(isLive('75', 'OFF_ASLEEP') || isLive('75', 'START')).toBe(false);
  });
  it('retention ends when the driver’s door opens (owner’s handbooks of five vehicles, read)', () => {
    expect(isLive('75r', 'RETAIN')).toBe(true);
    expect(isLive('75r', 'RETAIN_DOOR')).toBe(false);
  });
});
