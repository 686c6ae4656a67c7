import { describe, expect, it } from 'vitest';
import type { Element } from '../../../src/circuit/index.ts';
import { type FuseGates, fuseHeat, openingS } from '../../../src/circuit/time/index.ts';
import { near, ohms } from '../solved.ts';
import { capacitor, follow, source } from './timed.ts';

/** Longest times of a 10 A blade: ISO 8820-3 type C gates 1.35 / 1.6 / 2 / 3.5 / 6 x rating (from memory). */
const BLADE: FuseGates = {
  opens: [
    { amp: 13.5, s: 600 },
    { amp: 16, s: 50 },
    { amp: 20, s: 5 },
    { amp: 35, s: 0.5 },
    { amp: 60, s: 0.1 },
  ],
};

/** Heats in equal intervals at a current that may change; when it opened, s. */
function opens(gates: FuseGates, amp: (t: number) => number, untilS: number, stepS: number): number {
  let heat = 0;
  for (let t = 0; t < untilS; t += stepS) {
    const next = fuseHeat(gates, heat, stepS, amp(t), amp(t + stepS));
    if (next.openedAfterS !== null) return t + next.openedAfterS;
    heat = next.heat;
  }
  return Number.POSITIVE_INFINITY;
}

describe('a fuse', () => {
  it('opens at its gates under a constant current, in one interval or many', () => {
    for (const { amp, s } of BLADE.opens) {
      near(openingS(BLADE, amp), s, 1e-12);
      near(
        opens(BLADE, () => amp, 2 * s, 2 * s),
        s,
        1e-9,
      );
      near(
        opens(BLADE, () => -amp, 2 * s, s / 7),
        s,
        1e-9,
      );
    }
  });

  it('goes straight on log-log paper between two gates', () => {
    // Half way between 16 and 20 A on a log scale: sqrt(320) A and sqrt(250) s.
    near(openingS(BLADE, Math.sqrt(16 * 20)), Math.sqrt(50 * 5), 1e-12);
  });

  it('never opens below the first gate', () => {
    expect(openingS(BLADE, 13.4)).toBe(Number.POSITIVE_INFINITY);
    expect(opens(BLADE, () => 13.4, 1e6, 1e3)).toBe(Number.POSITIVE_INFINITY);
  });

  it('melts at a constant I2t above the last gate, whatever the shape', () => {
    // 60 A for 0.1 s: 360 A2s. A current that rises straight from 100 to 300 A in 20 ms carries
    // (300^3 - 100^3) / (3 x 200) x 0.02 = 866.7 A2s, and has carried 360 when (100 + 1e4 t)^3 = 1e6 + 3e4 x 360.
    near(openingS(BLADE, 600), 360 / 600 ** 2, 1e-12);
    const t = (Math.cbrt(1e6 + 3e4 * 360) - 100) / 1e4;
    near(
      opens(BLADE, (s) => 100 + 1e4 * s, 0.02, 0.02),
      t,
      0.01,
    );
    near(
      opens(BLADE, (s) => 100 + 1e4 * s, 0.02, 0.0005),
      t,
      1e-3,
    );
  });

  it('takes a melting integral of its own where one is known', () => {
    near(openingS({ ...BLADE, meltA2s: 115 }, 100), 115 / 1e4, 1e-12);
  });

  it('sums the shares of several currents: linear damage', () => {
    // 2.5 s at 20 A is half; 0.25 s at 35 A the other half.
    near(
      opens(BLADE, (t) => (t < 2.499 ? 20 : 35), 10, 0.001),
      2.75,
      0.005,
    );
  });

  it('cools between two surges, with a third of its slowest time', () => {
    const half = fuseHeat(BLADE, 0, 2.5, 20, 20).heat;
    near(half, 0.5, 1e-9);
    near(fuseHeat(BLADE, half, 200, 5, 5).heat, 0.5 / Math.E, 1e-9);
    near(fuseHeat({ ...BLADE, coolS: 10 }, half, 10, 0, 0).heat, 0.5 / Math.E, 1e-9);
    // A current through zero heats as its size does.
    expect(fuseHeat(BLADE, 0, 1, -20, 20).heat).toBeLessThan(0.2);
  });

  it('stays open, and one without gates holds for ever', () => {
    expect(fuseHeat(BLADE, 1, 10, 0, 0)).toEqual({ heat: 1, openedAfterS: 0 });
    expect(fuseHeat({ opens: [] }, 0.2, 10, 1e4, 1e4)).toEqual({ heat: 0.2, openedAfterS: null });
  });
});

describe('a fuse in a run', () => {
  const blown = (on: (id: string) => boolean): Element => ohms('fuse', 'b', 'out', on('f') ? Number.POSITIVE_INFINITY : 0.008);
  const fuses = [{ id: 'f', element: 'fuse', gates: BLADE }];

  it('opens within 1 ms of its gate, stays open, and is an event', () => {
    // 20 A from 3 s on: opens 5 s later.
    const at = (on: (id: string) => boolean, t: number): readonly Element[] => [
      source('feed', 'b', 12, 0.001),
      blown(on),
      ohms('load', 'out', '0', t < 3 ? 12 : 12 / 20 - 0.009),
    ];
    const { trace, v } = follow(at, { untilS: 60 }, { breaks: [3], fuses });
    expect(trace.events).toHaveLength(1);
    expect(trace.events[0]).toMatchObject({ device: 'f', on: true });
    expect(Math.abs(trace.events[0]!.tS - 8)).toBeLessThan(1e-3);
    expect(trace.states.get('f')).toBe(true);
    expect(Math.abs(v('out').at(-1)!)).toBeLessThan(1e-6);
  });

  it('stands an inrush whose I2t stays below its own: C V^2 / 2R', () => {
    // 12 V into 40 mF through 0.1 ohm: 40 mF x 144 / 0.2 = 28.8 A2s of 360; into 600 mF: 432.
    const at = (farad: number) => (on: (id: string) => boolean) => [
      source('feed', 'b', 12, 0.05),
      blown(on),
      ohms('wire', 'out', 'c', 0.0419),
      capacitor('c', 'c', '0', farad),
    ];
    const empty = new Map([['c', 0]]);
    expect(follow(at(0.04), { untilS: 10, charge: empty }, { fuses }).trace.events).toEqual([]);
    const { trace } = follow(at(0.6), { untilS: 10, charge: empty }, { fuses });
    // I2t reaches 360 of 432 when exp(-2 t / RC) = 1 / 6: 53.8 ms, were the law I2t all the way down to 49 A.
    expect(trace.events.map((e) => e.device)).toEqual(['f']);
    near(trace.events[0]!.tS, (0.06 / 2) * Math.log(6), 0.05);
  });

  it('blown before the start is open', () => {
    const at = (on: (id: string) => boolean) => [source('feed', 'b', 12, 0.001), blown(on), ohms('load', 'out', '0', 1)];
    const { trace, v } = follow(at, { untilS: 1, states: new Map([['f', true]]) }, { fuses });
    expect(trace.events).toEqual([]);
    expect(Math.abs(v('out').at(-1)!)).toBeLessThan(1e-6);
  });
});
