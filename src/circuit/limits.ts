import { junctionAmp, junctionVolt, LEAK_S } from './laws.ts';
import { CODE, CORNER_A, REGULATED, regulated, SATURATION } from './ports.ts';

/**
 * Where Newton linearises next. The new volts are taken as they are unless a law bends sharply on the way there; then
 * a step small in current is taken instead, to the volts at which the element carries what the last linearisation
 * foretold. A solution is one only when nothing was held back.
 */

/** Below this a junction counts as blocking while Newton is on its way, A. */
const DARK_A = 1e-8;
/** Volts nearer than this share of n Vt to the predicted ones need no holding back. */
const CLOSE = 1e-3;

/**
 * Volts at which to linearise next: the new volts, or for a junction about to be overdriven the volts at which it
 * carries the current that the last linearisation predicted (a small step in current, whatever the volts).
 */
export function limitOne(code: number, par: Float64Array, o: number, uOld: number, iOld: number, gOld: number, uNew: number): number {
  if (code === CODE.diode) return limitJunction(par, o, uOld, iOld, gOld, uNew);
  if (code === CODE.zener && !par[o + 7] && uNew < 0) return -limitJunction(par, o, -uOld, -iOld, gOld, -uNew);
  return uNew;
}

function limitJunction(par: Float64Array, o: number, uOld: number, iOld: number, gOld: number, uNew: number): number {
  const knee = par[o + 3]!;
  const nVt = par[o + 1]!;
  const amp = iOld + gOld * (uNew - uOld) - LEAK_S * uNew;
  // About to block: the tangent of a conducting junction would creep down by n Vt a step.
  if (!(amp > 0)) return Math.min(uNew, iOld > DARK_A && uNew > 0 ? 0 : knee);
  // A blocking junction tells nothing of the current to come: up to its knee the volts count.
  const isBlocking = iOld < DARK_A;
  if (isBlocking && uNew <= knee) return uNew;
  let at = junctionVolt(amp, par, o);
  if (isBlocking && at < knee) at = knee;
  return Math.abs(at - uNew) < CLOSE * nVt ? uNew : at;
}

/** Volts at which a one-port is first linearised from a cold start. */
export function coldOne(code: number, par: Float64Array, o: number): number {
  return code === CODE.diode ? par[o + 3]! : 0;
}

/**
 * Output volts at which to linearise a regulator next. Where the last linearisation (`ampOld`, `slopeOld`) predicts a
 * current `amp` within its range, the volts for that current; else the new volts, but never from limit to reverse block or back at once.
 */
export function limitRegulator(par: Float64Array, o: number, u: number, w: number, ampOld: number, slopeOld: number, amp: number): number {
  if (!par[o]) return w;
  const ohm = par[o + 2]!;
  const limitA = par[o + 3]!;
  regulated(par, o, u);
  const next = (REGULATED[0]! - w) / ohm;
  if (next >= 0 && next <= limitA) return w;
  // Only inside its range does the old slope foretell the current.
  if (slopeOld * ohm > 0.9 && amp > 0 && amp < limitA) return REGULATED[0]! - amp * ohm;
  const crosses = next < 0 ? Math.max(amp, ampOld) > 0.99 * limitA : Math.min(amp, ampOld) < CORNER_A;
  return crosses ? REGULATED[0]! - 0.5 * limitA * ohm : w;
}

/** Output volts at which a regulator is first linearised from a cold start: in the middle of its range. */
export function coldRegulator(par: Float64Array, o: number, u: number): number {
  if (!par[o]) return 0;
  regulated(par, o, u);
  return REGULATED[0]! - 0.5 * par[o + 3]! * par[o + 2]!;
}

/**
 * Collector-emitter volts at which to linearise an optocoupler next, its LED being at `u`: the volts for the predicted
 * collector current `amp` if the LED can give it, else the new volts, but never across the whole knee at once.
 */
export function limitCollector(par: Float64Array, o: number, u: number, wOld: number, w: number, amp: number): number {
  const sat = par[o + 6]!;
  if (w <= 0 && wOld <= 0) return w;
  const given = par[o + 5]! * junctionAmp(u, par, o);
  // A dark transistor has no knee to step over; beside its dark current the current foretold says nothing.
  if (!(given > Math.max(DARK_A, 10 * par[o + 7]!))) return w;
  const share = (amp - LEAK_S * w - (par[o + 7]! * w) / Math.sqrt(w * w + sat * sat)) / given;
  if (share > 0 && share < 0.98) {
    const at = sat * Math.sqrt(Math.sqrt(-Math.log1p(-share) / SATURATION));
    return Math.abs(at - w) < CLOSE * sat ? w : at;
  }
  const crosses = (wOld > 2 * sat && w < 0.3 * sat) || (wOld < 0.3 * sat && w > 2 * sat);
  return crosses ? sat : w;
}
