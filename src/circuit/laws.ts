/**
 * Scalar laws of the non-linear elements: value and slope. Pure functions of volts; no element objects here.
 */

/** Boltzmann constant over elementary charge, V/K (exact since the 2019 SI). */
const KELVIN_VOLT = 1.380649e-23 / 1.602176634e-19;

/** Leakage beside every junction and load, S: real ones leak more, and it keeps a node solvable behind a blocked junction or a load that is off. */
export const LEAK_S = 1e-9;

/** Thermal voltage at a temperature in degrees C, V. */
export const thermalVolt = (tC: number): number => KELVIN_VOLT * (tC + 273.15);

/** ln(1 + e^t) without overflow. */
export function softplus(t: number): number {
  if (t > 40) return t;
  if (t < -700) return 0;
  return Math.log1p(Math.exp(t));
}

/** Slope of softplus. */
export function logistic(t: number): number {
  if (t > 40) return 1;
  if (t < -700) return 0;
  return 1 / (1 + Math.exp(-t));
}

/**
 * Wright omega function of a real argument: w + ln w = x. Two steps of the fourth-order iteration of Lawrence,
 * Corless and Jeffrey, ACM TOMS 38 (2012), algorithm 917 (from memory); full double precision.
 */
export function wrightOmega(x: number): number {
  if (x < -50) return Math.exp(x);
  let w: number;
  if (x < -2) w = Math.exp(x);
  else if (x < 1) w = Math.exp((2 * (x - 1)) / 3);
  else if (x < 4) w = 1 + (x - 1) * (0.5 + (x - 1) / 16);
  else w = x - Math.log(x) * (1 - 1 / x);
  for (let k = 0; k < 2; k++) {
    const r = x - w - Math.log(w);
    const t = 1 + w;
    const q = 2 * t * (t + (2 * r) / 3);
    w *= 1 + ((r / t) * (q - r)) / (q - 2 * r);
  }
  return w;
}

/**
 * Lays down a junction through the point (vF at iF, series resistance included) at offset `o`: ln of the saturation
 * current, n Vt, series resistance, knee volts, saturation current.
 */
export function layJunction(par: Float64Array, o: number, vF: number, iF: number, n: number, tC: number, ohm: number): void {
  const nVt = n * thermalVolt(tC);
  // A point below the resistance's own drop leaves no junction voltage; a small one keeps the law defined.
  const vJ = Math.max(vF - iF * ohm, nVt);
  const lnIs = Math.log(iF) - vJ / nVt - Math.log1p(-Math.exp(-vJ / nVt));
  par[o] = lnIs;
  par[o + 1] = nVt;
  par[o + 2] = ohm;
  par[o + 4] = Math.exp(lnIs);
  // Knee: where the curve bends most sharply.
  par[o + 3] = junctionVolt(nVt * Math.SQRT1_2, par, o);
}

/** Current (A) of a junction with series resistance at `v` across both, without leakage. */
export function junctionAmp(v: number, par: Float64Array, o: number): number {
  const lnIs = par[o]!;
  const nVt = par[o + 1]!;
  const ohm = par[o + 2]!;
  const is = par[o + 4]!;
  // Far below zero only the saturation current is left.
  if (v < -40 * nVt) return -is;
  if (ohm === 0) return Math.exp(lnIs + v / nVt) - is;
  const scale = nVt / ohm;
  return scale * wrightOmega(lnIs - Math.log(scale) + (v + is * ohm) / nVt) - is;
}

/** Slope dI/dV of the same at the current `amp`. */
export function junctionSlope(amp: number, par: Float64Array, o: number): number {
  const g = (amp + par[o + 4]!) / par[o + 1]!;
  return g / (1 + g * par[o + 2]!);
}

/** Volts across junction and series resistance at the current `amp` > 0. */
export function junctionVolt(amp: number, par: Float64Array, o: number): number {
  return par[o + 1]! * (Math.log(amp + par[o + 4]!) - par[o]!) + amp * par[o + 2]!;
}

/** Interpolated ordinate of a curve given by rising abscissae; the ends hold. Never below `least`. */
export function curveAt(points: readonly (readonly [number, number])[], x: number, least: number): number {
  const first = points[0];
  const last = points[points.length - 1];
  if (!first || !last) return Math.max(least, 1);
  if (x <= first[0]) return Math.max(least, first[1]);
  if (x >= last[0]) return Math.max(least, last[1]);
  let k = 1;
  while (points[k]![0] < x) k++;
  const [x0, y0] = points[k - 1]!;
  const [x1, y1] = points[k]!;
  return Math.max(least, y0 + ((y1 - y0) * (x - x0)) / (x1 - x0));
}

/** Slope of the same curve; zero where it is clamped. */
export function curveSlope(points: readonly (readonly [number, number])[], x: number, least: number): number {
  for (let k = 1; k < points.length; k++) {
    const [x0, y0] = points[k - 1]!;
    const [x1, y1] = points[k]!;
    if (x > x0 && x < x1) return curveAt(points, x, least) > least ? (y1 - y0) / (x1 - x0) : 0;
  }
  return 0;
}
