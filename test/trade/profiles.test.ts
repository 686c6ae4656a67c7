import { describe, expect, it } from 'vitest';
import { decay, joined, later, lines } from '../../src/trade/curves.ts';
import { eventProfiles, jumpStart, loadDump, longOverVoltage, pulse1, pulse2a, pulse2b, reversedBattery, startingProfile } from '../../src/trade/profiles.ts';

/** Least and greatest value on a fine grid. */
function ends(p: { volts(tS: number): number }, fromS: number, toS: number): readonly [number, number] {
  const all = Array.from({ length: 20_001 }, (_, k) => p.volts(fromS + (k / 20_000) * (toS - fromS)));
  return [Math.min(...all), Math.max(...all)];
}

describe('starting profiles of ISO 16750-2, 4.6.3', () => {
  it('level II of 12 V: 4.5 V from 5 ms to 20 ms, 6.5 V from 70 ms for 10 s, back in 100 ms (from memory)', () => {
    const p = startingProfile(12, 'II', 12);
    expect(p.volts(0)).toBe(12);
    expect(p.volts(0.0025)).toBeCloseTo(8.25, 9);
    expect(p.volts(0.005)).toBe(4.5);
    expect(p.volts(0.02)).toBe(4.5);
    expect(p.volts(0.045)).toBeCloseTo(5.5, 9);
    expect(p.volts(0.07)).toBe(6.5);
    expect(p.volts(10.07)).toBeCloseTo(6.5, 9);
    expect(p.volts(10.17)).toBeCloseTo(12, 9);
    expect(p.lastsS).toBeCloseTo(10.17, 9);
  });
  // Crests 10.5 V, 16 V and 11 V stand in the wave files of a test generator (read); the trough lies as far below.
  it.each([
    [12, 'I', 9.5, 10.5, 1],
    [24, 'II', 15, 16, 10],
    [24, 'III', 10, 11, 1],
  ] as const)('%s V level %s: plateau %s V with its crest at %s V', (systemV, level, plateauV, crestV, plateauS) => {
    const p = startingProfile(systemV, level);
    const fromS = p.corners[3]!;
    const [least, greatest] = ends(p, fromS, fromS + plateauS);
    expect(greatest).toBeCloseTo(crestV, 3);
    expect(least).toBeCloseTo(2 * plateauV - crestV, 3);
  });
  it('the ripple has 2 Hz: twenty troughs in the ten seconds of level II (read second-hand)', () => {
    const p = startingProfile(12, 'II');
    let troughs = 0;
    for (let k = 1; k < 9999; k++) {
      const at = (n: number): number => p.volts(0.07 + n / 1000);
      if (at(k) < at(k - 1) && at(k) <= at(k + 1)) troughs++;
    }
    expect(troughs).toBe(20);
  });
  it('begins and ends where it is told', () => {
    const p = startingProfile(12, 'I', 11.2, 12.4);
    expect([p.volts(-1), p.volts(0), p.volts(p.lastsS), p.volts(99)]).toEqual([11.2, 11.2, 12.4, 12.4]);
  });
});

describe('load dump of ISO 16750-2, 4.6.4', () => {
  it('test A of 12 V: to 101 V in 10 ms behind 0.5 to 4 ohm, a tenth left after 400 ms (a journal paper’s table, read)', () => {
    const p = loadDump(12, 'A');
    expect(p.volts(0.01)).toBeCloseTo(101, 9);
    // Duration is from a tenth of the rise to a tenth of the decay.
    expect(p.volts(0.001 + 0.4)).toBeCloseTo(14 + 0.1 * (101 - 14), 6);
    expect(p.sourceOhm).toEqual([0.5, 4]);
    expect(p.volts(p.lastsS)).toBeCloseTo(14, 2);
  });
  it('test A of 24 V: 202 V behind 1 to 8 ohm, 350 ms (the same table, read)', () => {
    const p = loadDump(24, 'A');
    expect(ends(p, 0, 0.1)[1]).toBeCloseTo(202, 0);
    expect(p.volts(0.351)).toBeCloseTo(28 + 0.1 * (202 - 28), 6);
    expect(p.sourceOhm).toEqual([1, 8]);
  });
  it.each([
    [12, 35],
    [24, 58],
  ] as const)('test B of %s V is cut off at %s V (wave files of a test generator, read), with corners where the clamp takes over', (systemV, clampV) => {
    const p = loadDump(systemV, 'B');
    expect(ends(p, 0, p.lastsS)[1]).toBe(clampV);
    expect(p.corners).toHaveLength(4);
    expect(p.volts(p.corners.at(-1)! + 1e-4)).toBeLessThan(clampV);
    expect(p.volts(p.corners[1]! - 1e-5)).toBeLessThan(clampV);
  });
  it('takes peaks of the table only', () => {
    expect(loadDump(12, 'A', 79).volts(0.01)).toBeCloseTo(79, 9);
    expect(() => loadDump(12, 'A', 60)).toThrow(RangeError);
    expect(() => loadDump(24, 'B', 101)).toThrow(RangeError);
  });
});

describe('steady faults of the supply', () => {
  it('jump start: 26 V for 60 s from 10.8 V, edges of 10 ms (2023 edition, read second-hand)', () => {
    const p = jumpStart();
    expect([p.volts(0), p.volts(0.01), p.volts(30), p.volts(60.01), p.volts(60.02)]).toEqual([10.8, 26, 26, 26, 10.8]);
  });
  it('regulator failed: 18 V and 36 V for an hour (2023 edition, read second-hand)', () => {
    expect(longOverVoltage(12).volts(1800)).toBe(18);
    expect(longOverVoltage(24).volts(1800)).toBe(36);
    expect(longOverVoltage(12).lastsS).toBeGreaterThan(3600);
  });
  it('reversed battery: -14 V and -28 V for a minute (from memory)', () => {
    expect(reversedBattery(12).volts(30)).toBe(-14);
    expect(reversedBattery(24).volts(30)).toBe(-28);
  });
});

describe('pulses of ISO 7637-2:2011, level IV', () => {
  it('pulse 1 of 12 V: -150 V behind 10 ohm, a tenth left after 2 ms, supply back after 200 ms (from memory)', () => {
    const p = pulse1(12);
    const peakS = p.corners[2]!;
    expect(p.volts(peakS)).toBeCloseTo(-150, 6);
    expect(p.volts(peakS + 0.002)).toBeCloseTo(-15, 6);
    expect(p.volts(0.1)).toBeCloseTo(0, 6);
    expect(p.volts(p.lastsS)).toBe(13.5);
    expect(p.sourceOhm).toEqual([10, 10]);
  });
  it('pulse 1 of 24 V: -600 V behind 50 ohm, 1 ms (wave files of a test generator, read)', () => {
    const p = pulse1(24);
    expect(p.volts(p.corners[2]!)).toBeCloseTo(-600, 6);
    expect(p.volts(p.corners[2]! + 0.001)).toBeCloseTo(-60, 6);
    expect(p.sourceOhm).toEqual([50, 50]);
  });
  it('pulse 2a: 112 V on top of the supply behind 2 ohm, 50 µs (shape and level read in the wave files)', () => {
    const p = pulse2a(12);
    expect(p.volts(101e-6)).toBeCloseTo(13.5 + 112, 6);
    expect(p.volts(151e-6)).toBeCloseTo(13.5 + 11.2, 6);
    expect(p.sourceOhm).toEqual([2, 2]);
  });
  it('pulse 2b: 10 V and 20 V behind at most 0.05 ohm, a tenth left after 2 s (from memory)', () => {
    expect(pulse2b(12).volts(0.003)).toBeCloseTo(10, 6);
    expect(pulse2b(24).volts(2.003)).toBeCloseTo(2, 6);
    expect(pulse2b(12).sourceOhm).toEqual([0, 0.05]);
  });
});

describe('every profile', () => {
  const all = [12, 24].flatMap((systemV) => (['I', 'II', 'III', 'IV'] as const).flatMap((level) => eventProfiles(systemV as 12 | 24, level)));
  it('names its source and its kind once a system; the jump start is for 12 V', () => {
    for (const p of all) expect(p.source).toMatch(/^ISO (16750|7637)-2/);
    expect(eventProfiles(12, 'I').map((p) => p.id)).toContain('jump-start');
    expect(eventProfiles(24, 'I').map((p) => p.id)).not.toContain('jump-start');
    expect(new Set(eventProfiles(12, 'I').map((p) => p.id)).size).toBe(9);
  });
  it('kinks at rising corners only, without a jump', () => {
    for (const p of all) {
      expect(p.corners[0]).toBe(0);
      p.corners.forEach((tS, k) => {
        if (k > 0) expect(tS).toBeGreaterThan(p.corners[k - 1]!);
        // 1 µs of the steepest edge (600 V in 3 µs) is 200 V; a nanosecond 0.2 V.
        expect(Math.abs(p.volts(tS + 1e-9) - p.volts(tS - 1e-9)), `${p.id} at ${tS} s`).toBeLessThan(0.5);
      });
    }
  });
});

describe('curves', () => {
  const ramp = lines([
    [1, 0],
    [3, 4],
  ]);
  it('lines are level outside their points', () => {
    expect([ramp.volts(0), ramp.volts(2), ramp.volts(9)]).toEqual([0, 2, 4]);
  });
  it('a decay has lost 63.2 % after one time constant', () => {
    expect(decay(1, 10, 0, 2).volts(3)).toBeCloseTo(10 / Math.E, 9);
    expect(decay(1, 10, 0, 2).volts(0)).toBe(10);
  });
  it('pieces follow one another and may be put later', () => {
    const both = joined([ramp, later(ramp, 5)]);
    expect(both.corners).toEqual([1, 3, 6, 8]);
    expect([both.volts(5.9), both.volts(6), both.volts(7)]).toEqual([4, 0, 2]);
  });
});
