import type { Diode } from '../circuit/types.ts';
import type { DiodeFacts } from '../trade/semiconductors.ts';

/** A diode of the trade table as an element, anode a. The forward voltage of its sheet holds at 25 degrees C; the law follows `tC`. */
export function diodeElement(id: string, a: string, b: string, facts: DiodeFacts, tC: number): Diode {
  const spread = facts.vFMaxV / facts.vFTypV;
  return {
    kind: 'diode',
    id,
    a,
    b,
    vF: facts.vFTypV,
    iF: facts.vFTestA,
    n: facts.n,
    tC,
    ohm: facts.ohm,
    tol: { vF: [Math.max(0.5, 2 - spread), spread] },
  };
}
