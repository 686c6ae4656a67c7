import { curveAt, curveSlope, junctionAmp, junctionSlope, LEAK_S, layJunction, logistic, softplus } from './laws.ts';
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
export const CORNER_A = 1e-5;
/** Rounding of the drop-out corner and of a breakdown knee, V. */
const CORNER_V = 1e-3;
const KNEE_V = 5e-3;
/** Forward point of a Zener or suppressor used as a diode (silicon junction; common practice, no source). */
const FORWARD = { vF: 0.7, iF: 0.01, n: 1.2, tC: 25 };
/** V_CE(sat) is stated with the transistor driven hard; here: a fifth of the available collector current flows (4N25 sheet: I_C 2 mA of 10 mA). */
export const SATURATION = -Math.log(1 - 0.2);
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
      layJunction(par, o, e.vF, e.iF, e.n, e.tC, e.ohm);
      return;
    case 'zener':
      layJunction(par, o, FORWARD.vF, FORWARD.iF, FORWARD.n, FORWARD.tC, ohmOf(e.ohm));
      par[o + 5] = e.vBr;
      par[o + 6] = ohmOf(e.ohm);
      par[o + 7] = e.bidirectional ? 1 : 0;
  }
}

/** Lays down the figures of a two-port at offset `o`. */
export function prepareTwo(e: TwoWay, par: Float64Array, o: number): void {
  if (e.kind === 'opto') {
    layJunction(par, o, e.vF, e.iF, e.n, e.tC, 0);
    par[o + 5] = e.ctr;
    par[o + 6] = Math.max(e.vCeSat, CORNER_V);
    par[o + 7] = e.darkA;
    return;
  }
  const on = e.kind === 'linear' || e.on;
  par[o] = on ? 1 : 0;
  par[o + 1] = e.setV;
  par[o + 2] = ohmOf(e.outOhm);
  par[o + 3] = Math.max(e.limitA, CORNER_A);
  par[o + 4] = Math.max(e.dropV, CORNER_V);
  // Below this input a constant-power input turns into a resistance, so that a dead rail draws nothing.
  par[o + 5] = Math.max(e.dropV, 0.05);
  par[o + 6] = e.kind === 'stepdown' && !e.on ? e.offA : e.quiescentA;
}

/**
 * Current and slope of a one-port with `u` volts across, into OUT[0] and OUT[2]. Without `isTangent` a constant power
 * counts as a constant current: its falling slope drives Newton away while its supply is not yet conducting.
 */
export function lawOne(code: number, par: Float64Array, o: number, u: number, isTangent = true): void {
  const a = par[o]!;
  const b = par[o + 1]!;
  if (code === CODE.current) {
    const fades = u < b;
    OUT[0] = (fades ? (a * u) / b : a) + LEAK_S * u;
    OUT[2] = (fades ? a / b : 0) + LEAK_S;
  } else if (code === CODE.power) {
    const fades = u < b;
    OUT[0] = (fades ? (a * u) / (b * b) : a / u) + LEAK_S * u;
    OUT[2] = (fades ? a / (b * b) : isTangent ? -a / (u * u) : 0) + LEAK_S;
  } else if (code === CODE.diode) {
    const amp = junctionAmp(u, par, o);
    OUT[0] = amp + LEAK_S * u;
    OUT[2] = junctionSlope(amp, par, o) + LEAK_S;
  } else {
    zenerLaw(par, o, u);
  }
}

function zenerLaw(par: Float64Array, o: number, u: number): void {
  const g = 1 / par[o + 6]!;
  const up = (u - par[o + 5]!) / KNEE_V;
  OUT[0] = KNEE_V * g * softplus(up) + LEAK_S * u;
  OUT[2] = g * logistic(up) + LEAK_S;
  if (par[o + 7]) {
    const down = (-u - par[o + 5]!) / KNEE_V;
    OUT[0]! -= KNEE_V * g * softplus(down);
    OUT[2]! += g * logistic(down);
  } else {
    const amp = junctionAmp(-u, par, o);
    OUT[0]! -= amp;
    OUT[2]! += junctionSlope(amp, par, o);
  }
}

/** Open-circuit output volts of a regulator with `u` at its input (index 0) and the slope (index 1). */
export const REGULATED = new Float64Array(2);
export function regulated(par: Float64Array, o: number, u: number): void {
  const set = par[o + 1]!;
  const over = (set - (u - par[o + 4]!)) / CORNER_V;
  // Below zero for a dead input: then nothing flows, whatever the output. Far below the corner the set volts cancel.
  REGULATED[0] = over > 40 ? u - par[o + 4]! : set - CORNER_V * softplus(over);
  REGULATED[1] = logistic(over);
}

/** Currents and slopes of a two-port: u across in-gnd (or a-k), w across out-gnd (or c-e); i1 into in, i2 into out. */
export function lawTwo(code: number, par: Float64Array, o: number, eta: Curve, u: number, w: number, isTangent = true): void {
  if (code === CODE.opto) optoLaw(par, o, u, w);
  else regulatorLaw(code, par, o, eta, u, w, isTangent);
}

function optoLaw(par: Float64Array, o: number, u: number, w: number): void {
  const amp = junctionAmp(u, par, o);
  const slope = junctionSlope(amp, par, o);
  const ctr = par[o + 5]!;
  const sat = par[o + 6]!;
  const darkA = par[o + 7]!;
  const size = Math.sqrt(w * w + sat * sat);
  OUT[0] = amp + LEAK_S * u;
  OUT[2] = slope + LEAK_S;
  OUT[3] = 0;
  OUT[1] = (darkA * w) / size + LEAK_S * w;
  OUT[4] = 0;
  OUT[5] = (darkA * sat * sat) / (size * size * size) + LEAK_S;
  if (amp <= 0 || w <= 0) return;
  const x = w / sat;
  const x3 = x * x * x;
  const rest = Math.exp(-SATURATION * x3 * x);
  OUT[1]! += ctr * amp * (1 - rest);
  OUT[4] = ctr * slope * (1 - rest);
  OUT[5]! += (ctr * amp * rest * 4 * SATURATION * x3) / sat;
}

function regulatorLaw(code: number, par: Float64Array, o: number, eta: Curve, u: number, w: number, isTangent: boolean): void {
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
  OUT[2]! += dWatt * dU * over1 + watt * (fades ? 1 / (least * least) : isTangent ? -1 / (u * u) : 0);
  OUT[3]! += (-dWatt * dAmp + (w > 0 ? amp / share : 0)) * over1;
}
