/** Closed formulas of the trade. SI units; each says where it comes from. Bad input throws a RangeError with the value. */
import { demand, demandNumber } from './basis.ts';

const positive = (value: number, what: string): void => demand(Number.isFinite(value) && value > 0, `${what} must be above zero`, value);

/** Resistor that sets a current through a drop (LED, optocoupler), ohm: (V - V_F) / I, less what is inside already. Ohm's law. */
export function seriesOhm(supplyV: number, dropV: number, amp: number, insideOhm = 0): number {
  positive(amp, 'Current in A');
  demand(supplyV > dropV, 'Supply must be above the forward voltage', supplyV);
  return (supplyV - dropV) / amp - insideOhm;
}

/** Junction temperature, degrees C: ambient + power x thermal resistance. */
export function junctionC(ambientC: number, watt: number, kPerW: number): number {
  demandNumber(watt, 0, 1e4, 'Power in W');
  demandNumber(kPerW, 0, 1e4, 'Thermal resistance in K/W');
  return ambientC + watt * kPerW;
}

/** Capacitor that feeds a constant power while its voltage falls, F: 2 P t / (V1^2 - V2^2). Energy balance. */
export function holdUpFarad(watt: number, seconds: number, fromV: number, toV: number): number {
  positive(watt, 'Power in W');
  positive(seconds, 'Time to bridge in s');
  demand(fromV > toV && toV >= 0, 'Voltage at the end must be below that at the start', toV);
  return (2 * watt * seconds) / (fromV ** 2 - toV ** 2);
}

/** Time until an RC circuit reaches a threshold on the way from 0 to the supply, s: -RC ln(1 - V_th / V). */
export function rcTimeS(ohm: number, farad: number, supplyV: number, thresholdV: number): number {
  positive(ohm * farad, 'R x C in s');
  demand(thresholdV >= 0 && thresholdV < supplyV, 'Threshold must lie below the supply', thresholdV);
  return -ohm * farad * Math.log(1 - thresholdV / supplyV);
}

/** Least copper area that survives a short, mm2: sqrt(I^2 t) / k. Source: IEC 60364-5-54 (from memory), valid to 5 s. */
export function shortCircuitAreaMm2(amp: number, seconds: number, k: number): number {
  demandNumber(seconds, 0, 5, 'Duration of the short in s');
  positive(k, 'Adiabatic constant k');
  return Math.sqrt(amp ** 2 * seconds) / k;
}

/** Voltage lost along a conductor, V: current x length x ohm per metre. The length is one way; count the return as its own wire. */
export function dropV(amp: number, lengthM: number, ohmPerMetre: number): number {
  demandNumber(lengthM, 0, 1e4, 'Length in m');
  return amp * lengthM * ohmPerMetre;
}

/** Input current of a converter, A: P_out / (eta V_in). Highest when the supply is lowest. */
export function converterInputA(outV: number, outA: number, eta: number, inV: number): number {
  demandNumber(eta, 0.05, 1, 'Efficiency');
  positive(inV, 'Input voltage in V');
  return (outV * outA) / (eta * inV);
}

/** Energy of a charged capacitor, J: C V^2 / 2. */
export function storedJ(farad: number, volt: number): number {
  demandNumber(farad, 0, 1e5, 'Capacitance in F');
  return (farad * volt ** 2) / 2;
}

/** Integral of the surge into an empty capacitor through a resistance, A2s: V^2 C / (2 R). */
export function surgeI2t(volt: number, farad: number, ohm: number): number {
  positive(ohm, 'Loop resistance in ohm');
  return (volt ** 2 * farad) / (2 * ohm);
}
