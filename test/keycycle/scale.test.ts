import { describe, expect, it } from 'vitest';
import { timeScale } from '../../src/sheet/timing/scale.ts';

/** Start at 5 s, cranking for 1.5 s, key off at 60 s, nothing more after 150 s. */
const scale = timeScale([5, 6.5, 60], [5, 6.5, 35, 60, 63, 91, 150], 180, 34, 734);

describe('the time axis of the key cycle', () => {
  it('covers all time and all room, without gap and without turning back', () => {
    expect(scale.x(0)).toBe(34);
    expect(scale.x(180)).toBeCloseTo(734, 9);
    scale.stretches.slice(1).forEach((s, i) => {
      expect(s.fromS).toBe(scale.stretches[i]!.toS);
      expect(s.x0).toBe(scale.stretches[i]!.x1);
    });
    let last = Number.NEGATIVE_INFINITY;
    for (let t = 0; t <= 180; t += 0.25) {
      expect(scale.x(t)).toBeGreaterThan(last);
      last = scale.x(t);
    }
  });

  it('reads back what it places', () => {
    for (let t = 0; t <= 180; t += 0.7) expect(scale.t(scale.x(t))).toBeCloseTo(t, 9);
    expect(scale.t(-100)).toBe(0);
    expect(scale.t(5000)).toBe(180);
  });

  it('gives a second of cranking more room than an even axis would, and says where the scale changes', () => {
    // Even: 1.5 s of 180 s on 700 units are 6 units.
    expect(scale.x(6.5) - scale.x(5)).toBeGreaterThan(40);
    expect(scale.breaks).toEqual([5, 6.5, 60].map(scale.x));
  });

  it('is even inside a stretch', () => {
    expect(scale.x(30) - scale.x(20)).toBeCloseTo(scale.x(50) - scale.x(40), 9);
  });

  it('squeezes minutes in which nothing happens, and only those', () => {
    const long = timeScale([60], [60, 63, 91, 660, 745], 780, 0, 700);
    const [quiet, ...others] = long.stretches.filter((s) => s.squeezed);
    expect(others).toEqual([]);
    expect([quiet?.fromS, quiet?.toS]).toEqual([91 + 15, 660 - 15]);
    expect((quiet?.x1 ?? 0) - (quiet?.x0 ?? 0)).toBe(30);
    expect(scale.stretches.some((s) => s.squeezed)).toBe(false);
  });

  it('labels the axis so that no label covers another, in seconds and in minutes where it is long', () => {
    for (const s of [scale, timeScale([60], [60, 63, 91, 660, 750], 780, 0, 700)]) {
      expect(s.ticks.length).toBeGreaterThan(5);
      s.ticks.slice(1).forEach((tick, i) => {
        expect(tick.x - s.ticks[i]!.x).toBeGreaterThanOrEqual(42 - 1e-6);
      });
      for (const tick of s.ticks) expect(tick.x).toBeCloseTo(s.x(tick.tS), 6);
    }
    expect(scale.ticks[0]?.label).toBe('0 s');
    expect(timeScale([60], [60, 660], 780, 0, 700).ticks.at(-1)?.label).toMatch(/^1[23](:\d\d)? min$/);
  });
});
