import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/index.ts';
import { runs } from '../runs.ts';
import { feed, near, ohms, solved } from './solved.ts';

describe('resistive networks with closed forms', () => {
  it('divides 45 V over 5, 10 and 7.5 kohm into 10, 20 and 15 V', () => {
    // Lessons In Electric Circuits, volume I, chapter on divider circuits (from memory).
    const s = solved([feed(45, 'a'), ohms('r1', 'a', 'b', 5000), ohms('r2', 'b', 'c', 10_000), ohms('r3', 'c', '0', 7500)]);
    near(s.v('a') - s.v('b'), 10, 1e-6);
    near(s.v('b') - s.v('c'), 20, 1e-6);
    near(s.v('c'), 15, 1e-6);
  });

  it('balances a Wheatstone bridge at equal ratios, and reads its unbalance', () => {
    // Any circuits textbook: galvanometer current zero at R1/R2 = R3/R4; open-bridge volts are the difference of two dividers.
    const bridge = (r4: number, meter: number): Element[] => [
      feed(10, 'a', 1e-4),
      ohms('r1', 'a', 'l', 100),
      ohms('r2', 'l', '0', 200),
      ohms('r3', 'a', 'r', 150),
      ohms('r4', 'r', '0', r4),
      ohms('meter', 'l', 'r', meter),
    ];
    expect(Math.abs(solved(bridge(300, 50)).i('meter'))).toBeLessThan(1e-12);
    const open = solved(bridge(450, Number.POSITIVE_INFINITY));
    near(open.v('l') - open.v('r'), 10 * (200 / 300 - 450 / 600), 1e-5);
    // With the meter in: Thevenin of both dividers.
    const thevenin = 10 * (200 / 300 - 450 / 600);
    near(solved(bridge(450, 50)).i('meter'), thevenin / (200 / 3 + 112.5 + 50), 1e-5);
  });

  it('sees R at the mouth of an R-2R ladder of any length', () => {
    // Textbook ladder: each section folds 2R parallel 2R into R.
    for (const sections of [1, 5, 20]) {
      const list: Element[] = [feed(1, 'n0', 1e-4)];
      for (let k = 0; k < sections; k++) list.push(ohms(`s${k}`, `n${k}`, `n${k + 1}`, 100), ohms(`p${k}`, `n${k + 1}`, '0', 200));
      list.push(ohms('end', `n${sections}`, '0', 200));
      near(solved(list).i('feed'), 1 / (200 + 1e-4), 1e-9);
    }
  });

  it('reads the current from the volts across a fuse: 2.4 mV over 7.7 mohm is 312 mA', () => {
    // Vehicle-electrics school sheet on measuring across fuses (read).
    const s = solved([feed(12, 'a'), ohms('fuse', 'a', 'b', 0.0077), ohms('load', 'b', '0', 12 / 0.3117 - 0.0087)]);
    expect(1000 * (s.v('a') - s.v('b'))).toBeCloseTo(2.4, 2);
    expect(1000 * s.i('fuse')).toBeCloseTo(312, 0);
  });

  it('shares current between two sources as superposition has it', () => {
    // Millman's theorem: V = sum(V/R) / sum(1/R).
    const s = solved([
      { kind: 'source', id: 's1', a: 'a', b: '0', volt: 12.6, ohm: 0.05 },
      { kind: 'source', id: 's2', a: 'a', b: '0', volt: 14.2, ohm: 0.2 },
      ohms('load', 'a', '0', 3),
    ]);
    const expected = (12.6 / 0.05 + 14.2 / 0.2) / (1 / 0.05 + 1 / 0.2 + 1 / 3);
    near(s.v('a'), expected, 1e-12);
    near(s.i('s1'), (12.6 - expected) / 0.05, 1e-10);
    near(s.i('s2'), (14.2 - expected) / 0.2, 1e-10);
  });

  it('takes a capacitor as its leakage and an inductor as its winding', () => {
    const s = solved([
      feed(12, 'a', 1),
      { kind: 'inductor', id: 'coil', a: 'a', b: 'b', henry: 1e-3, ohm: 2 },
      { kind: 'capacitor', id: 'bulk', a: 'b', b: '0', farad: 1e-3, esrOhm: 0.1, leakOhm: 9 },
    ]);
    near(s.i('bulk'), 1, 1e-12);
    near(s.i('coil'), 1, 1e-12);
  });

  it('agrees with a dense solution of the nodal equations by another library', () => {
    const math = create(all!, {});
    const network = fc.integer({ min: 2, max: 15 }).chain((n) =>
      fc.record({
        n: fc.constant(n),
        branches: fc.array(
          fc.record({ a: fc.integer({ min: 0, max: n }), b: fc.integer({ min: 0, max: n }), ohm: fc.double({ min: 0.01, max: 1000, noNaN: true }) }),
          { maxLength: 30 },
        ),
        volts: fc.array(fc.double({ min: -30, max: 30, noNaN: true }), { minLength: n, maxLength: n }),
      }),
    );
    fc.assert(
      fc.property(network, ({ n, branches, volts }) => {
        const name = (k: number): string => String(k);
        const list: Element[] = volts.map((volt, k) => ({ kind: 'source', id: `s${k}`, a: name(k + 1), b: '0', volt, ohm: 5 }));
        branches.forEach((r, k) => {
          list.push(ohms(`r${k}`, name(r.a), name(r.b), r.ohm));
        });
        const g = Array.from({ length: n }, (_, r) => Array.from({ length: n }, (_, c) => (r === c ? 1 / 5 : 0)));
        for (const { a, b, ohm } of branches) {
          if (a === b) continue;
          if (a > 0) g[a - 1]![a - 1]! += 1 / ohm;
          if (b > 0) g[b - 1]![b - 1]! += 1 / ohm;
          if (a > 0 && b > 0) {
            g[a - 1]![b - 1]! -= 1 / ohm;
            g[b - 1]![a - 1]! -= 1 / ohm;
          }
        }
        const expected = math.lusolve(
          g,
          volts.map((v) => v / 5),
        ) as number[][];
        const s = solved(list);
        for (let k = 0; k < n; k++) expect(Math.abs(s.v(name(k + 1)) - expected[k]![0]!)).toBeLessThan(1e-9);
      }),
      { numRuns: runs(100) },
    );
  });
});
