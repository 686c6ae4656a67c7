import type { TimedCircuit } from './circuit.ts';
import type { Moment } from './moment.ts';
import { allowed, type Tolerance } from './pace.ts';
import { soften } from './soften.ts';

/**
 * One step of TR-BDF2 (Bank et al., IEEE Trans. CAD 4, 1985) as a one-step method of two equal implicit stages with an
 * error estimate of third order (Hosea and Shampine, Appl. Numer. Math. 20, 1996; both from memory). Second order,
 * L-stable: what is much faster than the step dies in it and does not ring.
 */
export const GAMMA = 2 - Math.SQRT2;
const D = GAMMA / 2;
const W = Math.SQRT2 / 4;
const ERROR = [(4 * W - 1) / 3, -1 / 3, (2 * D) / 3] as const;

/** Below this share of what is allowed an error lets the step grow as far as it may. */
const NEGLIGIBLE = 0.005;
/** A source or load level may bend away from a straight line within a step by this many times the error allowed. */
const BEND = 10;
/** Likewise volts of a node, in steps longer than this, s: where a junction turns or the state of a load ends they may truly jump. */
const NODE_BEND = 20;
const JUMP_S = 5e-4;

export interface Tried {
  readonly isSolved: boolean;
  /** Largest local error over what is allowed; its cube root sets the step. */
  readonly error: number;
  /** Worst node of a stage that has no solution, -1 otherwise. */
  readonly worst: number;
}

export class Stepper {
  private readonly from: Float64Array;
  private readonly raw: Float64Array;
  private readonly soft: Float64Array;
  /** Volts before the last accepted step's second stage and its length: the way they were going. */
  private readonly lastX: Float64Array;
  private lastS = 0;

  constructor(
    private readonly circuit: TimedCircuit,
    private readonly tolerance: Tolerance,
  ) {
    this.from = new Float64Array(circuit.stores.count);
    this.raw = new Float64Array(circuit.stores.count);
    this.soft = new Float64Array(circuit.stores.count);
    this.lastX = new Float64Array(circuit.network.nodes.length + 1);
  }

  /** Forgets the way volts were going: they have jumped. */
  restart(): void {
    this.lastS = 0;
  }

  /** The step just tried stands. */
  accept(middle: Moment, end: Moment): void {
    this.lastX.set(middle.x);
    this.lastS = end.tS - middle.tS;
  }

  /** Tries a step from `now` over `spanS`; inputs of its end are read at `endS`. Fills `middle` and `end`. */
  attempt(now: Moment, middle: Moment, end: Moment, spanS: number, endS: number): Tried {
    const { circuit, from } = this;
    const m = circuit.stores.count;
    const stageS = D * spanS;
    for (let s = 0; s < m; s++) from[s] = now.held[s]! + stageS * now.slope[s]!;
    const share = this.lastS > 0 && spanS < 8 * this.lastS ? (GAMMA * spanS) / this.lastS : 0;
    for (let k = 0; k < middle.x.length; k++) middle.x[k] = now.x[k]! + share * (now.x[k]! - this.lastX[k]!);
    let result = circuit.stage(middle, now.tS + GAMMA * spanS, stageS, from);
    if (result.status !== 'solved' && share > 0) {
      middle.x.set(now.x);
      result = circuit.stage(middle, now.tS + GAMMA * spanS, stageS, from);
    }
    if (result.status !== 'solved') return { isSolved: false, error: Number.POSITIVE_INFINITY, worst: result.worst };
    for (let s = 0; s < m; s++) from[s] = now.held[s]! + W * spanS * (now.slope[s]! + middle.slope[s]!);
    for (let k = 0; k < end.x.length; k++) end.x[k] = now.x[k]! + (middle.x[k]! - now.x[k]!) / GAMMA;
    result = circuit.stage(end, endS, stageS, from);
    if (result.status !== 'solved') {
      end.x.set(middle.x);
      result = circuit.stage(end, endS, stageS, from);
    }
    if (result.status !== 'solved') return { isSolved: false, error: Number.POSITIVE_INFINITY, worst: result.worst };
    end.tS = now.tS + spanS;
    return { isSolved: true, error: Math.max(this.error(now, middle, end, spanS), this.bend(now, middle, end, spanS)), worst: -1 };
  }

  private error(now: Moment, middle: Moment, end: Moment, spanS: number): number {
    const { circuit, raw, soft } = this;
    for (let s = 0; s < circuit.stores.count; s++) {
      raw[s] = spanS * (ERROR[0] * now.slope[s]! + ERROR[1] * middle.slope[s]! + ERROR[2] * end.slope[s]!);
    }
    const hard = this.worst(raw, end);
    if (hard < NEGLIGIBLE) return hard;
    soften(circuit.network, circuit.stores, raw, soft, D * spanS, null);
    const atEnd = this.worst(soft, end);
    if (atEnd > 1 || atEnd > 0.5 * hard) return atEnd;
    // Fast at the end only: it became so within the step, by a junction that turned or a load that let go.
    soften(circuit.network, circuit.stores, raw, soft, D * spanS, now.x);
    return Math.max(atEnd, this.worst(soft, end));
  }

  private worst(errors: Float64Array, end: Moment): number {
    let worst = 0;
    for (let s = 0; s < errors.length; s++) {
      const share = Math.abs(errors[s]!) / allowed(this.circuit, this.tolerance, s, end.held[s]!);
      if (!(share <= worst)) worst = share;
    }
    return worst;
  }

  /** How far inputs and nodes leave the straight line from start to end, in the units of the error: a step does not run past a wave. */
  private bend(now: Moment, middle: Moment, end: Moment, spanS: number): number {
    const inputs = this.farthest(now.inputs, middle.inputs, end.inputs) / BEND;
    const nodes = spanS > JUMP_S ? this.farthest(now.x, middle.x, end.x) / NODE_BEND : 0;
    // Falls with the square of the step, the error with the cube.
    return Math.max(inputs, nodes) ** 1.5;
  }

  private farthest(from: Float64Array, between: Float64Array, to: Float64Array): number {
    const { absV, relative } = this.tolerance;
    let worst = 0;
    for (let k = 0; k < to.length; k++) {
      const a = from[k]!;
      const c = to[k]!;
      const b = between[k]!;
      if (a === b && b === c) continue;
      const off = Math.abs(b - a - GAMMA * (c - a)) / Math.max(absV, relative * Math.abs(c));
      if (off > worst) worst = off;
    }
    return worst;
  }
}
