import { curveAt, curveSlope, junction, junctionAmp, junctionSlope, junctionVolt, LEAK_S, logistic, softplus } from './laws.ts';
import type { CurrentLoad, Diode, Linear, Opto, PowerLoad, StepDown, Zener } from './types.ts';

/**
 * Every non-linear element is one port (current through, volts across) or two ports that act on each other. The
 * figures of an element are laid down once a solve in a flat parameter array; the laws below read only that.
 */
export type OneWay = CurrentLoad | PowerLoad | Diode | Zener;
export type TwoWay = StepDown | Linear | Opto;
export type Curve = readonly (readonly [amp: number, eta: number])[];

/** Figures per element in the parameter arrays. */
export const STRIDE = 10;
/** No resistance below 0.1 mohm: closer nodes are to be merged by the caller. */
export const LEAST_OHM = 1e-4;
/** Rounding of the corners of a regulator's output law, A: no reading is finer. */
const CORNER_A = 1e-5;
/** Rounding of the drop-out corner and of a breakdown knee, V. */
const CORNER_V = 1e-3;
const KNEE_V = 5e-3;
/** Forward point of a Zener or suppressor used as a diode (silicon junction; common practice, no source). */
const FORWARD = { vF: 0.7, iF: 0.01, n: 1.2, tC: 25 };
/** V_CE(sat) is stated with the transistor driven hard; here: a fifth of the available collector current flows (4N25 sheet: I_C 2 mA of 10 mA). */
const SATURATION = -Math.log(1 - 0.2);
const LEAST_ETA = 0.05;

export const CODE = { current: 1, power: 2, diode: 3, zener: 4, stepdown: 5, linear: 6, opto: 7 } as const;

/** Result of the last law evaluated: i1, i2 (A), then slopes g11, g12, g21, g22 (S). */
export const OUT = new Float64Array(6);

const ohmOf = (ohm: number): number => Math.max(ohm, LEAST_OHM);

/** Lays down the figures of a one-port at offset `o`. */
export function prepareOne(e: OneWay, par: Float64Array, o: number): void {
  switch (e.kind) {
    case 'current':
      par[o] = e.amp;
      par[o + 1] = Math.max(e.minV, CORNER_V);
      return;
    case 'power':
      par[o] = e.watt;
      par[o + 1] = Math.max(e.minV, CORNER_V);
      return;
    case 'diode':
      prepareJunction(par, o, e.vF, e.iF, e.n, e.tC, e.ohm);
      return;
    case 'zener':
      prepareJunction(par, o, FORWARD.vF, FORWARD.iF, FORWARD.n, FORWARD.tC, ohmOf(e.ohm));
      par[o + 4] = e.vBr;
      par[o + 5] = ohmOf(e.ohm);
      par[o + 6] = e.bidirectional ? 1 : 0;
  }
}

function prepareJunction(par: Float64Array, o: number, vF: number, iF: number, n: number, tC: number, ohm: number): void {
  const { lnIs, nVt } = junction(vF, iF, n, tC, ohm);
  par[o] = lnIs;
  par[o + 1] = nVt;
  par[o + 2] = ohm;
  // Knee: the junction where its curvature is sharpest.
  par[o + 3] = junctionVolt(nVt * Math.SQRT1_2, lnIs, nVt, ohm);
}

/** Lays down the figures of a two-port at offset `o`. */
export function prepareTwo(e: TwoWay, par: Float64Array, o: number): void {
  if (e.kind === 'opto') {
    prepareJunction(par, o, e.vF, e.iF, e.n, e.tC, 0);
    par[o + 4] = e.ctr;
    par[o + 5] = Math.max(e.vCeSat, CORNER_V);
    par[o + 6] = e.darkA;
    return;
  }
  const on = e.kind === 'linear' || e.on;
  par[o] = on ? 1 : 0;
  par[o + 1] = e.setV;
  par[o + 2] = ohmOf(e.outOhm);
  par[o + 3] = Math.max(e.limitA, CORNER_A);
  par[o + 4] = e.dropV;
  // Below this input a constant-power input turns into a resistance, so that a dead rail draws nothing.
  par[o + 5] = Math.max(e.dropV, 0.05);
  par[o + 6] = e.kind === 'stepdown' && !e.on ? e.offA : e.quiescentA;
}

/** Current and slope of a one-port with `u` volts across, into OUT[0] and OUT[2]. */
export function lawOne(code: number, par: Float64Array, o: number, u: number): void {
  const a = par[o]!;
  const b = par[o + 1]!;
  if (code === CODE.current) {
    const fades = u < b;
    OUT[0] = (fades ? (a * u) / b : a) + LEAK_S * u;
    OUT[2] = (fades ? a / b : 0) + LEAK_S;
  } else if (code === CODE.power) {
    const fades = u < b;
    OUT[0] = (fades ? (a * u) / (b * b) : a / u) + LEAK_S * u;
    OUT[2] = (fades ? a / (b * b) : -a / (u * u)) + LEAK_S;
  } else if (code === CODE.diode) {
    const amp = junctionAmp(u, a, b, par[o + 2]!);
    OUT[0] = amp + LEAK_S * u;
    OUT[2] = junctionSlope(amp, a, b, par[o + 2]!) + LEAK_S;
  } else {
    zenerLaw(par, o, u);
  }
}

function zenerLaw(par: Float64Array, o: number, u: number): void {
  const g = 1 / par[o + 5]!;
  const up = (u - par[o + 4]!) / KNEE_V;
  OUT[0] = KNEE_V * g * softplus(up) + LEAK_S * u;
  OUT[2] = g * logistic(up) + LEAK_S;
  if (par[o + 6]) {
    const down = (-u - par[o + 4]!) / KNEE_V;
    OUT[0]! -= KNEE_V * g * softplus(down);
    OUT[2]! += g * logistic(down);
  } else {
    const amp = junctionAmp(-u, par[o]!, par[o + 1]!, par[o + 2]!);
    OUT[0]! -= amp;
    OUT[2]! += junctionSlope(amp, par[o]!, par[o + 1]!, par[o + 2]!);
  }
}

/**
 * Volts at which to linearise next: the new volts, or for a junction about to be overdriven the volts at which it
 * carries the current that the last linearisation predicted (a small step in current, whatever the volts).
 */
export function limitOne(code: number, par: Float64Array, o: number, uOld: number, iOld: number, gOld: number, uNew: number): number {
  if (code === CODE.diode) return limitJunction(par, o, uOld, iOld, gOld, uNew);
  if (code === CODE.zener && !par[o + 6] && uNew < 0) return -limitJunction(par, o, -uOld, -iOld, gOld, -uNew);
  return uNew;
}

function limitJunction(par: Float64Array, o: number, uOld: number, iOld: number, gOld: number, uNew: number): number {
  const knee = par[o + 3]!;
  if (uNew <= knee || uNew - uOld <= par[o + 1]!) return uNew;
  const amp = iOld + gOld * (uNew - uOld);
  if (!(amp > 0)) return Math.min(uNew, knee);
  return Math.min(uNew, Math.max(knee, junctionVolt(amp, par[o]!, par[o + 1]!, par[o + 2]!)));
}

/** Volts at which a one-port is first linearised from a cold start. */
export function coldOne(code: number, par: Float64Array, o: number): number {
  return code === CODE.diode ? par[o + 3]! : 0;
}

/** Open-circuit output volts of a regulator with `u` at its input (index 0) and the slope (index 1). */
const REGULATED = new Float64Array(2);
function regulated(par: Float64Array, o: number, u: number): void {
  const set = par[o + 1]!;
  const over = (set - (u - par[o + 4]!)) / CORNER_V;
  const e = set - CORNER_V * softplus(over);
  const slope = logistic(over);
  const positive = e > 40 * CORNER_V;
  REGULATED[0] = positive ? e : CORNER_V * softplus(e / CORNER_V);
  REGULATED[1] = positive ? slope : slope * logistic(e / CORNER_V);
}

/** Output volts at which a regulator is linearised: never from limit to reverse block or back in one step. */
export function limitRegulator(par: Float64Array, o: number, u: number, wOld: number, uOld: number, wNew: number): number {
  if (!par[o]) return wNew;
  const ohm = par[o + 2]!;
  const limitA = par[o + 3]!;
  regulated(par, o, uOld);
  const before = (REGULATED[0]! - wOld) / ohm;
  regulated(par, o, u);
  const after = (REGULATED[0]! - wNew) / ohm;
  const crosses = (before >= limitA && after < 0) || (before < 0 && after >= limitA);
  return crosses ? REGULATED[0]! - 0.5 * limitA * ohm : wNew;
}

/** Output volts at which a regulator is first linearised from a cold start: in the middle of its range. */
export function coldRegulator(par: Float64Array, o: number, u: number): number {
  if (!par[o]) return 0;
  regulated(par, o, u);
  return REGULATED[0]! - 0.5 * par[o + 3]! * par[o + 2]!;
}

/** Collector-emitter volts at which an optocoupler is linearised: steps through the knee are kept short. */
export function limitCollector(par: Float64Array, o: number, old: number, next: number): number {
  const sat = par[o + 5]!;
  const a = old / sat;
  const b = next / sat;
  if (a > 2.4) return b < 1.2 ? 1.2 * sat : next;
  if (a < 0.3) return b > 1.2 ? 1.2 * sat : next;
  return sat * Math.min(a + 0.8, Math.max(a - 0.6, b));
}

/** Currents and slopes of a two-port: u across in-gnd (or a-k), w across out-gnd (or c-e); i1 into in, i2 into out. */
export function lawTwo(code: number, par: Float64Array, o: number, eta: Curve, u: number, w: number): void {
  if (code === CODE.opto) optoLaw(par, o, u, w);
  else regulatorLaw(code, par, o, eta, u, w);
}

function optoLaw(par: Float64Array, o: number, u: number, w: number): void {
  const amp = junctionAmp(u, par[o]!, par[o + 1]!, 0);
  const slope = junctionSlope(amp, par[o]!, par[o + 1]!, 0);
  const ctr = par[o + 4]!;
  const sat = par[o + 5]!;
  const x = w > 0 ? w / sat : 0;
  const x3 = x * x * x;
  const rest = Math.exp(-SATURATION * x3 * x);
  const lit = Math.max(amp, 0);
  const dark = w / Math.hypot(w, sat);
  OUT[0] = amp + LEAK_S * u;
  OUT[2] = slope + LEAK_S;
  OUT[3] = 0;
  OUT[1] = ctr * lit * (1 - rest) + par[o + 6]! * dark + LEAK_S * w;
  OUT[4] = amp > 0 ? ctr * slope * (1 - rest) : 0;
  OUT[5] = (ctr * lit * rest * 4 * SATURATION * x3) / sat + (par[o + 6]! * (1 - dark * dark)) / Math.hypot(w, sat) + LEAK_S;
}

function regulatorLaw(code: number, par: Float64Array, o: number, eta: Curve, u: number, w: number): void {
  const least = par[o + 5]!;
  const idle = par[o + 6]!;
  const fades = u < least;
  OUT[0] = (fades ? (idle * u) / least : idle) + LEAK_S * u;
  OUT[2] = (fades ? idle / least : 0) + LEAK_S;
  OUT[3] = 0;
  OUT[4] = 0;
  // Off: the output is open, a floating one is tied by the solver.
  OUT[1] = par[o] ? LEAK_S * w : 0;
  OUT[5] = par[o] ? LEAK_S : 0;
  if (!par[o]) return;
  const ohm = par[o + 2]!;
  regulated(par, o, u);
  const lack = (REGULATED[0]! - w) / ohm / CORNER_A;
  const over = lack - par[o + 3]! / CORNER_A;
  const amp = CORNER_A * (softplus(lack) - softplus(over));
  const dAmp = (logistic(lack) - logistic(over)) / ohm;
  const dU = dAmp * REGULATED[1]!;
  OUT[1]! -= amp;
  OUT[4]! -= dU;
  OUT[5]! += dAmp;
  if (code === CODE.linear) {
    OUT[0]! += amp;
    OUT[2]! += dU;
    OUT[3]! -= dAmp;
    return;
  }
  // Input power over input volts; below `least` a resistance.
  const out = Math.max(w, 0);
  const share = curveAt(eta, amp, LEAST_ETA);
  const watt = (out * amp) / share;
  const dWatt = out / share - (watt / share) * curveSlope(eta, amp, LEAST_ETA);
  const over1 = fades ? u / (least * least) : 1 / u;
  OUT[0]! += watt * over1;
  OUT[2]! += dWatt * dU * over1 + watt * (fades ? 1 / (least * least) : -1 / (u * u));
  OUT[3]! += (-dWatt * dAmp + (w > 0 ? amp / share : 0)) * over1;
}
