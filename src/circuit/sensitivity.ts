import { ampsAt, direction, flowOf, portVolts, slopesOf } from './amps.ts';
import type { Factors } from './factors.ts';
import { conductance, loadValues } from './load.ts';
import { endsOf, type Network } from './network.ts';
import { factorAt } from './newton.ts';
import { LEAST_OHM } from './ports.ts';
import { Responses } from './response.ts';
import { cornerFactors, figure, scaled } from './scaled.ts';
import type { Element, NodeName, Solution } from './types.ts';

/** A figure of a solution: volts between two nodes, or the current of an element (at a port). */
export type Target = { readonly plus: NodeName; readonly minus: NodeName } | { readonly element: string; readonly port?: string };

export interface Sensitivity {
  readonly element: string;
  readonly param: string;
  /** dT/dp: change of the target (V or A) per unit of the parameter; for a curve, per unit of a factor on its ordinates. Zero for a parameter that is zero. */
  readonly value: number;
}

/** Relative step of the derivative of one element's own currents, at fixed volts: first, and finest. */
const STEP = 1e-6;
const LEAST_STEP = 1e-11;
/** Currents this bent over a step ask for a finer one. */
const BENT = 1e-3;
/** What looks like a bend but is rounding, as a share of the current (at least that of 1 mA). */
const ROUNDING = 1e-10;

/** Value of a target in a solution, V or A. */
export function targetValue(network: Network, elements: readonly Element[], solution: Solution, target: Target): number {
  if ('plus' in target) return voltsAt(network, solution.volts, target.plus) - voltsAt(network, solution.volts, target.minus);
  const e = elementOf(network, elements, target.element);
  const [v1, v2] = portVolts(network, e, solution);
  return ampsAt(e, v1, v2, target.port);
}

function indexOf(network: Network, node: NodeName): number {
  const k = network.nodeIndex.get(node);
  if (k === undefined) throw new Error(`no node ${node} in this network`);
  return k;
}

function voltsAt(network: Network, volts: Float64Array, node: NodeName): number {
  const k = indexOf(network, node);
  return k < 0 ? 0 : volts[k]!;
}

function elementOf(network: Network, elements: readonly Element[], id: string): Element {
  const k = network.elementIndex.get(id);
  if (k === undefined) throw new Error(`no element ${id} in this network`);
  return elements[k]!;
}

/** A parameter that has a tolerance. */
export interface Freedom {
  readonly element: Element;
  readonly param: string;
  /** Factors at both ends of its tolerance. */
  readonly down: number;
  readonly up: number;
}

/** A network linearised at one of its solutions: good until the network is solved again, for the factors are shared. */
export class Linearised {
  /** The most that each tolerance changes its parameter, as a share of it. */
  readonly reaches: Float64Array;
  /** Elimination steps of the ends of each element's ports. */
  private readonly ends: Int32Array;
  private readonly factors: Factors;
  private readonly responses: Responses;
  private readonly needed: Int32Array;
  private readonly adjoint: Float64Array;
  private readonly found: Float64Array;

  /**
   * @param slopes what a relative change of each parameter does to its element's own two currents at fixed volts
   * @param nodes node indices of the element's two ports; the node count for ground and for a port that is not there
   */
  private constructor(
    private readonly network: Network,
    private readonly elements: readonly Element[],
    private readonly solution: Solution,
    readonly freedoms: readonly Freedom[],
    private readonly slopes: Float64Array,
    nodes: Int32Array,
  ) {
    this.factors = network.work.factors!;
    this.responses = new Responses(this.factors);
    this.ends = this.responses.rowSteps(nodes);
    this.needed = stepsNeeded(this.factors, this.ends);
    this.reaches = new Float64Array(freedoms.length);
    freedoms.forEach(({ down, up }, k) => {
      this.reaches[k] = Math.max(Math.abs(down - 1), Math.abs(up - 1));
    });
    this.adjoint = new Float64Array(network.nodes.length + 1);
    this.found = new Float64Array(freedoms.length);
  }

  /** Null when the solution is none, or the system cannot be factored there. */
  static at(network: Network, elements: readonly Element[], solution: Solution): Linearised | null {
    if (solution.status !== 'solved') return null;
    const n = network.nodes.length;
    loadValues(network, elements);
    const x = network.work.x;
    x.set(solution.volts);
    x[n] = 0;
    if (!factorAt(network, x)) return null;
    const place = (name: NodeName | undefined): number => {
      const k = name === undefined ? -1 : network.nodeIndex.get(name)!;
      return k < 0 ? n : k;
    };
    const freedoms: Freedom[] = [];
    const slopes: number[] = [];
    const ends: number[] = [];
    for (const element of elements) {
      if (!element.tol) continue;
      const [v1, v2] = portVolts(network, element, solution);
      const [a, b, c, d] = endsOf(element);
      for (const [param, tolerance] of Object.entries(element.tol)) {
        const [down, up] = cornerFactors(tolerance);
        const { di1, di2 } = ownSlope(element, param, v1, v2);
        freedoms.push({ element, param, down, up });
        slopes.push(di1, di2);
        ends.push(place(a), place(b), place(c), place(d));
      }
    }
    return new Linearised(network, elements, solution, freedoms, Float64Array.from(slopes), Int32Array.from(ends));
  }

  /**
   * Change of a target (V or A) per relative change of each parameter, in the order of `freedoms` (adjoint method).
   * The array is written over by the next call.
   */
  effects(target: Target): Float64Array {
    const { found: effects, slopes, ends } = this;
    const adjoint = this.adjointOf(target);
    for (let k = 0; k < effects.length; k++) {
      const o = 4 * k;
      effects[k] = (adjoint[ends[o + 1]!]! - adjoint[ends[o]!]!) * slopes[2 * k]! + (adjoint[ends[o + 3]!]! - adjoint[ends[o + 2]!]!) * slopes[2 * k + 1]!;
    }
    if ('plus' in target) return effects;
    this.freedoms.forEach(({ element }, k) => {
      if (element.id !== target.element) return;
      const { first, signs } = direction(element, target.port);
      effects[k]! += signs * slopes[2 * k + (first ? 0 : 1)]!;
    });
    return effects;
  }

  /** A⁻ᵀ of the target's slope by elimination step, where parameters are felt; 0 at the last place, which is ground. */
  private adjointOf(target: Target): Float64Array {
    const { adjoint, needed } = this;
    const { lowPtr, lowRow, lowX } = this.factors;
    adjoint.fill(0);
    for (const { p, q, slope } of targetSlopes(this.network, this.elements, this.solution, target)) {
      const { steps, values } = this.responses.volts(p, q);
      for (let i = 0; i < steps.length; i++) adjoint[steps[i]!]! += slope * values[i]!;
    }
    for (let i = 0; i < needed.length; i++) {
      const k = needed[i]!;
      let y = adjoint[k]!;
      for (let r = lowPtr[k]!, end = lowPtr[k + 1]!; r < end; r++) y -= lowX[r]! * adjoint[lowRow[r]!]!;
      adjoint[k] = y;
    }
    return adjoint;
  }
}

/** Elimination steps at which something ends, and those that the back-substitution comes through on its way there, last first. */
function stepsNeeded({ n, lowPtr, lowRow }: Factors, ends: Int32Array): Int32Array {
  const isNeeded = new Uint8Array(n + 1);
  for (const end of ends) isNeeded[end] = 1;
  let count = 0;
  for (let k = 0; k < n; k++) {
    if (!isNeeded[k]) continue;
    count++;
    for (let r = lowPtr[k]!; r < lowPtr[k + 1]!; r++) isNeeded[lowRow[r]!] = 1;
  }
  const steps = new Int32Array(count);
  for (let k = 0; k < n; k++) if (isNeeded[k]) steps[--count] = k;
  return steps;
}

/**
 * Sensitivity of a target to every parameter that has a tolerance, from one transposed solution of the solved system
 * (adjoint method). Empty when the system cannot be factored at that solution.
 */
export function sensitivities(network: Network, elements: readonly Element[], solution: Solution, target: Target): readonly Sensitivity[] {
  const linearised = Linearised.at(network, elements, solution);
  if (!linearised) return [];
  const effects = linearised.effects(target);
  return linearised.freedoms.map(({ element, param }, k) => {
    const size = figure(element, param);
    return { element: element.id, param, value: size === 0 ? 0 : effects[k]! / size };
  });
}

/** Change of an element's own currents per relative change of a figure, at fixed volts. */
function ownSlope(element: Element, param: string, v1: number, v2: number): { di1: number; di2: number } {
  // Ohm's law needs no trial, as long as the resistance counts as it is.
  if (element.kind === 'resistor' && param === 'ohm' && element.ohm > 2 * LEAST_OHM) return { di1: -v1 * conductance(element), di2: 0 };
  const at = flowOf(element, v1, v2);
  for (let step = STEP; ; step *= 0.1) {
    const more = flowOf(scaled(element, param, 1 + step), v1, v2);
    const less = flowOf(scaled(element, param, 1 - step), v1, v2);
    const isBent = (high: number, mid: number, low: number): boolean =>
      Math.abs(high - 2 * mid + low) > BENT * Math.abs(high - low) + ROUNDING * (Math.abs(mid) + 1e-3);
    // A stiff regulator under a light load goes from full limit to nothing within microvolts.
    if (step > LEAST_STEP && (isBent(more.i1, at.i1, less.i1) || isBent(more.i2, at.i2, less.i2))) continue;
    return { di1: (more.i1 - less.i1) / (2 * step), di2: (more.i2 - less.i2) / (2 * step) };
  }
}

/** Derivative of the target by volts across pairs of nodes (the node count is ground). */
function targetSlopes(network: Network, elements: readonly Element[], solution: Solution, target: Target): { p: number; q: number; slope: number }[] {
  const at = (name: NodeName): number => {
    const k = indexOf(network, name);
    return k < 0 ? network.nodes.length : k;
  };
  if ('plus' in target) return [{ p: at(target.plus), q: at(target.minus), slope: 1 }];
  const e = elementOf(network, elements, target.element);
  const [v1, v2] = portVolts(network, e, solution);
  const [a, b, c, d] = endsOf(e);
  const { first, signs } = direction(e, target.port);
  const [g11, g12, g21, g22] = slopesOf(e, v1, v2);
  const pairs = [{ p: at(a), q: at(b), slope: signs * (first ? g11 : g21) }];
  if (c !== undefined && d !== undefined) pairs.push({ p: at(c), q: at(d), slope: signs * (first ? g12 : g22) });
  return pairs;
}
