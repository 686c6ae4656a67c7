import type { TimedCircuit } from './circuit.ts';
import type { Moment } from './moment.ts';

/** Local error allowed per step: volts, and share of the value. */
export interface Tolerance {
  readonly absV: number;
  readonly relative: number;
}

/** An inductor's amps are held as close as a capacitor's volts: this many amps a volt. */
const AMP_PER_VOLT = 0.2;
/** The first step after a jump moves no store by more than about this many times the error allowed, and is at most this long, s. */
const FIRST_MOVE = 4;
const FIRST_S = 0.1;

/** Error allowed of a store's held figure, V or A. */
export function allowed(circuit: TimedCircuit, tolerance: Tolerance, s: number, held: number): number {
  return Math.max(circuit.stores.isCapacitor[s] ? tolerance.absV : AMP_PER_VOLT * tolerance.absV, tolerance.relative * Math.abs(held));
}

/** The store that moves fastest in units of the error allowed, -1 when none moves, and its speed in those units, 1/s. */
export function fastest(circuit: TimedCircuit, tolerance: Tolerance, m: Moment): { readonly store: number; readonly speed: number } {
  let speed = 0;
  let store = -1;
  for (let s = 0; s < circuit.stores.count; s++) {
    const own = Math.abs(m.slope[s]!) / allowed(circuit, tolerance, s, m.held[s]!);
    if (!(own > speed)) continue;
    speed = own;
    store = s;
  }
  return { store, speed };
}

/** First step from a moment at which something has jumped, s. */
export function firstStepS(circuit: TimedCircuit, tolerance: Tolerance, m: Moment): number {
  return Math.min(FIRST_S, FIRST_MOVE / fastest(circuit, tolerance, m).speed);
}
