import type { Diode } from '../circuit/types.ts';
import type { DiodeFacts } from '../trade/semiconductors.ts';

/** Forward voltage falls with temperature, V/K: silicon junction, and metal on silicon (textbook figures, from memory). */
const FALL_PER_K = { junction: 0.002, schottky: 0.0012 } as const;
/** Emission coefficient below which a part is taken for a Schottky diode. */
const SCHOTTKY_N = 1.3;

/** Forward voltage at the same current and another temperature, V, from the sheet's figure at 25 degrees C. */
export function vFAt(vF25: number, n: number, tC: number): number {
  const perK = n < SCHOTTKY_N ? FALL_PER_K.schottky : FALL_PER_K.junction;
  return Math.max(0.1, vF25 - perK * (tC - 25));
}

/** A diode of the trade table as an element, anode a, at junction temperature `tC`. */
export function diodeElement(id: string, a: string, b: string, facts: DiodeFacts, tC: number): Diode {
  const spread = facts.vFMaxV / facts.vFTypV;
  return {
    kind: 'diode',
    id,
    a,
    b,
    vF: vFAt(facts.vFTypV, facts.n, tC),
    iF: facts.vFTestA,
    n: facts.n,
    tC,
    ohm: facts.ohm,
    tol: { vF: [Math.max(0.7, 2 - spread), spread] },
  };
}
