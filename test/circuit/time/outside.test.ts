import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { Element } from '../../../src/circuit/index.ts';
import { ohms } from '../solved.ts';
import { capacitor, follow, inductor, source } from './timed.ts';

/**
 * Outside reference: the explicit Runge-Kutta pair (Dormand-Prince) of mathjs at tight tolerance on the state equations
 * written out by hand. Explicit, so it must crawl where the network is stiff: both cases have time constants 1e4 apart.
 */
type Rates = (t: number, y: number[]) => number[];
type SolveOde = (rates: Rates, span: readonly number[], y0: readonly number[], options: object) => { readonly y: number[][] };
// The types of the package do not know this function.
const { solveODE } = create(all!, {}) as unknown as { readonly solveODE: SolveOde };

function reference(rates: Rates, y0: number[], times: readonly number[]): number[][] {
  let y = y0;
  let from = 0;
  return times.map((to) => {
    y = solveODE(rates, [from, to], y, { method: 'RK45', tol: 1e-8, firstStep: 1e-7, maxStep: 1e-3, maxIter: 1e6 }).y.at(-1)!;
    from = to;
    return y;
  });
}

const FINE = { absV: 1e-5, relative: 1e-6 };

describe('against an outside integrator', () => {
  it('a ladder of three capacitors: 10 us, 10 ms and 0.1 s', () => {
    const [r1, c1, r2, c2, r3, c3] = [1, 1e-5, 100, 1e-4, 1000, 1e-4];
    const rates: Rates = (_, [a, b, c]) => [((12 - a!) / r1 - (a! - b!) / r2) / c1, ((a! - b!) / r2 - (b! - c!) / r3) / c2, (b! - c!) / r3 / c3];
    const times = [1e-5, 1e-4, 1e-3, 1e-2, 3e-2];
    const at: readonly Element[] = [
      source('feed', 'a', 12, r1),
      capacitor('c1', 'a', '0', c1),
      ohms('r2', 'a', 'b', r2),
      capacitor('c2', 'b', '0', c2),
      ohms('r3', 'b', 'c', r3),
      capacitor('c3', 'c', '0', c3),
    ];
    const empty = new Map([
      ['c1', 0],
      ['c2', 0],
      ['c3', 0],
    ]);
    reference(rates, [0, 0, 0], times).forEach((y, k) => {
      const run = follow(at, { untilS: times[k]!, charge: empty, ...FINE });
      // 0.1 mohm, the least series resistance of a store, moves node a by 1.2 mV at the very start and nothing later.
      expect(Math.abs(run.last('a') - y[0]!), `a at ${times[k]}`).toBeLessThan(1.5e-3);
      expect(Math.abs(run.last('b') - y[1]!), `b at ${times[k]}`).toBeLessThan(5e-4);
      expect(Math.abs(run.last('c') - y[2]!), `c at ${times[k]}`).toBeLessThan(5e-4);
    });
  });

  it('a coil switched off into a diode and a small capacitor, the diode law written out by hand', () => {
    // Coil 10 mH, 20 ohm, 0.6 A; node capacitance 1 uF through 0.5 ohm; silicon junction 0.7 V at 0.1 A, n = 1.5, 25 C.
    const [L, R, C, esr] = [0.01, 20, 1e-6, 0.5];
    // Boltzmann constant over elementary charge, V/K (exact since the 2019 SI).
    const nVt = 1.5 * (1.380649e-23 / 1.602176634e-19) * 298.15;
    const iS = 0.1 / (Math.exp(0.7 / nVt) - 1);
    // Node volts from the current balance: coil + capacitor = diode. From the steep side Newton's method is monotone.
    const nodeV = (i: number, q: number): number => {
      let v = Math.max(q - i * esr, -0.9);
      for (let k = 0; k < 100; k++) {
        const f = i + (v - q) / esr - iS * (Math.exp(-v / nVt) - 1) + 1e-9 * v;
        const step = f / (1 / esr + (iS / nVt) * Math.exp(-v / nVt) + 1e-9);
        v -= step;
        if (Math.abs(step) < 1e-13) break;
      }
      return v;
    };
    const rates: Rates = (_, [i, q]) => {
      const v = nodeV(i!, q!);
      return [(v - R * i!) / L, (v - q!) / esr / C];
    };
    const times = [2e-6, 1e-5, 1e-4];
    const at = (_: unknown, t: number): readonly Element[] => [
      source('feed', 'b', 12.06, 0.05),
      ohms('contact', 'b', 'k', t > 0 ? Number.POSITIVE_INFINITY : 0.05),
      inductor('coil', 'k', '0', L, R),
      { kind: 'diode', id: 'd', a: '0', b: 'k', vF: 0.7, iF: 0.1, n: 1.5, tC: 25, ohm: 0 },
      capacitor('c', 'k', '0', C, esr),
    ];
    reference(rates, [0.6, 12], times).forEach((y, k) => {
      const run = follow(at, { untilS: times[k]!, ...FINE }, { breaks: [0] });
      expect(Math.abs(run.i('coil').at(-1)! - y[0]!), `coil at ${times[k]}`).toBeLessThan(1e-4);
      expect(Math.abs(run.last('k') - nodeV(y[0]!, y[1]!)), `node at ${times[k]}`).toBeLessThan(1e-3);
    });
  });
});
