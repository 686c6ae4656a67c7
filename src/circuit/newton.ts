import { junctionAmp } from './laws.ts';
import { coldOne, coldRegulator, limitCollector, limitOne, limitRegulator } from './limits.ts';
import type { Network, Workspace } from './network.ts';
import { CODE, lawOne, lawTwo, OUT, STRIDE } from './ports.ts';
import { columnsOf, type Factors, factorise, refactorise, solve } from './sparse.ts';
import type { SolveStatus } from './types.ts';

/** A floating island carries no current through its tie, so its size is free: 1 S keeps the elimination well conditioned. */
const TIE_S = 1;
/** A residual may stay here: well inside 1 nA + 1e-9 of the largest current. */
const REST_A = 1e-12;
const REST_SHARE = 1e-11;
/** After this many steps that bring nothing, this multiple of it is taken too: still five times inside. */
const PATIENCE = 3;
const LAST_RESORT = 20;
/** A junction that would carry this at the start volts starts at its knee instead, A. */
const ABSURD_A = 1e4;

export interface Setting {
  /** Share of every source's volts (source stepping). */
  readonly lambda: number;
  /** Conductance from every node to its volts in `towards` (ground when null), S. */
  readonly gmin: number;
  readonly towards: Float64Array | null;
  /** Linearise at the start volts themselves (a solution nearby) instead of at each element's knee. */
  readonly isWarm: boolean;
  readonly longest: number;
}

export interface Outcome {
  readonly status: SolveStatus;
  readonly iterations: number;
  /** Index of the node with the largest residual, -1 when solved. */
  readonly worst: number;
}

/** Currents and slopes of all elements at `x` (ground last, 0): fills values, residual and peak. True when an element was held back. */
function assemble(network: Network, x: Float64Array, set: Setting, first: boolean, isTangent: boolean): boolean {
  const { linear, one, work } = network;
  const { values, residual, peak, rest, linearG, linearV } = work;
  values.set(work.linearValues);
  residual.fill(0);
  peak.fill(0);
  work.rounding.fill(0);
  const { from, to } = linear;
  for (let k = 0; k < linear.count; k++) {
    const p = from[k]!;
    const q = to[k]!;
    const amp = linearG[k]! * (x[p]! - x[q]! - set.lambda * linearV[k]! + (rest[p]! - rest[q]!));
    residual[p]! += amp;
    residual[q]! -= amp;
    const size = amp < 0 ? -amp : amp;
    if (size > peak[p]!) peak[p] = size;
    if (size > peak[q]!) peak[q] = size;
  }
  let isHeld = false;
  for (let k = 0; k < one.count; k++) {
    const p = one.from[k]!;
    const q = one.to[k]!;
    const u = x[p]! - x[q]! + (rest[p]! - rest[q]!);
    const code = one.code[k]!;
    const o = k * STRIDE;
    let at = u;
    if (!first) at = limitOne(code, work.parOne, o, work.atOne[k]!, work.ampOne[k]!, work.slopeOne[k]!, u);
    else if (!set.isWarm) at = coldOne(code, work.parOne, o);
    lawOne(code, work.parOne, o, at, isTangent);
    if (first && !(Math.abs(OUT[0]!) < ABSURD_A)) {
      at = coldOne(code, work.parOne, o);
      lawOne(code, work.parOne, o, at, isTangent);
    }
    if (at !== u) isHeld = true;
    const g = OUT[2]!;
    work.atOne[k] = at;
    work.ampOne[k] = OUT[0]!;
    work.slopeOne[k] = g;
    stamp(values, one.slots, 4 * k, g);
    flow(residual, peak, p, q, OUT[0]! + g * (u - at));
  }
  if (assembleTwo(network, x, set, first, isTangent)) isHeld = true;
  addTies(network, x, set);
  return isHeld;
}

function assembleTwo(network: Network, x: Float64Array, set: Setting, first: boolean, isTangent: boolean): boolean {
  const { two, work } = network;
  const { values, residual, peak, rest, rounding, parTwo } = work;
  let isHeld = false;
  for (let k = 0; k < two.count; k++) {
    const p = two.from[k]!;
    const q = two.to[k]!;
    const r = two.from2[k]!;
    const s = two.to2[k]!;
    const u = x[p]! - x[q]! + (rest[p]! - rest[q]!);
    const w = x[r]! - x[s]! + (rest[r]! - rest[s]!);
    const code = two.code[k]!;
    const o = k * STRIDE;
    let atU = u;
    let atW = w;
    if (code === CODE.opto) {
      if (!first) atU = limitOne(CODE.diode, parTwo, o, work.atTwo[k]!, work.ampTwo[2 * k]!, work.slopeTwo[4 * k]!, u);
      else if (!set.isWarm || !(Math.abs(junctionAmp(u, parTwo, o)) < ABSURD_A)) atU = coldOne(CODE.diode, parTwo, o);
      if (!first) {
        const amp = work.ampTwo[2 * k + 1]! + work.slopeTwo[4 * k + 2]! * (u - work.atTwo[k]!) + work.slopeTwo[4 * k + 3]! * (w - work.at2[k]!);
        atW = limitCollector(parTwo, o, atU, work.at2[k]!, w, amp);
      }
    } else if (!first) {
      const old = -work.ampTwo[2 * k + 1]!;
      const amp = old - work.slopeTwo[4 * k + 2]! * (u - work.atTwo[k]!) - work.slopeTwo[4 * k + 3]! * (w - work.at2[k]!);
      atW = limitRegulator(parTwo, o, u, w, old, work.slopeTwo[4 * k + 3]!, amp);
    } else if (!set.isWarm) atW = coldRegulator(parTwo, o, u);
    if (atU !== u || atW !== w) isHeld = true;
    lawTwo(code, parTwo, o, work.eta[k]!, atU, atW, isTangent);
    work.atTwo[k] = atU;
    work.at2[k] = atW;
    work.ampTwo[2 * k] = OUT[0]!;
    work.ampTwo[2 * k + 1] = OUT[1]!;
    const du = u - atU;
    const dw = w - atW;
    flow(residual, peak, p, q, OUT[0]! + OUT[2]! * du + OUT[3]! * dw);
    flow(residual, peak, r, s, OUT[1]! + OUT[4]! * du + OUT[5]! * dw);
    // The output law subtracts two nearly equal voltages and divides by a small resistance.
    const blur = 4 * Number.EPSILON * Math.abs(w) * Math.abs(OUT[5]!);
    rounding[r]! += blur;
    rounding[s]! += blur;
    rounding[p]! += blur;
    rounding[q]! += blur;
    for (let g = 0; g < 4; g++) {
      work.slopeTwo[4 * k + g] = OUT[2 + g]!;
      stamp(values, two.slots, 16 * k + 4 * g, OUT[2 + g]!);
    }
  }
  return isHeld;
}

function stamp(values: Float64Array, slots: Int32Array, at: number, g: number): void {
  values[slots[at]!]! += g;
  values[slots[at + 1]!]! += g;
  values[slots[at + 2]!]! -= g;
  values[slots[at + 3]!]! -= g;
}

function flow(residual: Float64Array, peak: Float64Array, p: number, q: number, amp: number): void {
  residual[p]! += amp;
  residual[q]! -= amp;
  const size = amp < 0 ? -amp : amp;
  if (size > peak[p]!) peak[p] = size;
  if (size > peak[q]!) peak[q] = size;
}

function addTies(network: Network, x: Float64Array, set: Setting): void {
  const { work, diagonal } = network;
  for (let t = 0; t < work.tieCount; t++) {
    const k = work.ties[t]!;
    work.values[diagonal[k]!]! += TIE_S;
    work.residual[k]! += TIE_S * x[k]!;
  }
  if (set.gmin === 0) return;
  for (let k = 0; k < diagonal.length; k++) {
    work.values[diagonal[k]!]! += set.gmin;
    work.residual[k]! += set.gmin * (x[k]! - (set.towards ? set.towards[k]! : 0));
  }
}

/** Matrix of the network at `x`, unlimited, factored and kept in the workspace; false when singular. For sensitivities. */
export function factorAt(network: Network, x: Float64Array): boolean {
  const { two, one, work } = network;
  assemble(network, x, { lambda: 1, gmin: 0, towards: null, isWarm: true, longest: 0 }, true, true);
  // Slopes of the few elements that a warm start would hold back are taken where they are.
  work.values.set(work.linearValues);
  for (let k = 0; k < one.count; k++) {
    lawOne(one.code[k]!, work.parOne, k * STRIDE, x[one.from[k]!]! - x[one.to[k]!]!);
    stamp(work.values, one.slots, 4 * k, OUT[2]!);
  }
  for (let k = 0; k < two.count; k++) {
    lawTwo(two.code[k]!, work.parTwo, k * STRIDE, work.eta[k]!, x[two.from[k]!]! - x[two.to[k]!]!, x[two.from2[k]!]! - x[two.to2[k]!]!);
    for (let g = 0; g < 4; g++) stamp(work.values, two.slots, 16 * k + 4 * g, OUT[2 + g]!);
  }
  for (let t = 0; t < work.tieCount; t++) work.values[network.diagonal[work.ties[t]!]!]! += TIE_S;
  return factor(network, work);
}

/** @param onlyBent nothing has changed since these factors were worked out last but the slopes of elements that are not linear */
function factor(network: Network, work: Workspace, onlyBent = false): boolean {
  if (work.factors && refactorise(work.factors, work.values, onlyBent ? bentColumns(network, work.factors) : null)) return true;
  work.factors = factorise(network.symbolic, work.values);
  return work.factors !== null;
}

const bent = new WeakMap<Factors, Int32Array>();

/** The columns that can change from one step to the next. */
function bentColumns({ one, two }: Network, factors: Factors): Int32Array {
  let columns = bent.get(factors);
  if (!columns) {
    columns = columnsOf(factors, [...one.slots, ...two.slots]);
    bent.set(factors, columns);
  }
  return columns;
}

/** Largest residual in units of what may stay at its node, and the node. */
const MEASURE = { left: 0, node: -1 };
function measure(network: Network): void {
  const { residual, peak, rounding } = network.work;
  const n = network.nodes.length;
  let left = 0;
  let node = -1;
  for (let k = 0; k < n; k++) {
    const size = Math.abs(residual[k]!);
    const bound = REST_A + REST_SHARE * peak[k]! + rounding[k]!;
    // Written so that a residual that is not a number counts as the largest.
    if (size <= left * bound) continue;
    left = size / bound;
    node = k;
    if (Number.isNaN(left)) break;
  }
  MEASURE.left = left;
  MEASURE.node = node;
}

/** Newton's method from `x` (length n + 1, ground last) in place; the workspace's `rest` then belongs to that `x`. */
export function newton(network: Network, x: Float64Array, set: Setting): Outcome {
  const { work } = network;
  const { residual, rest, step } = work;
  rest.fill(0);
  work.isTangent = false;
  const n = network.nodes.length;
  let before = Number.POSITIVE_INFINITY;
  let stalled = 0;
  let isTangent = set.isWarm;
  // Factors that a step of this solution has worked out: ties, sources and linear elements are the same for all steps.
  let stands: Factors | null = null;
  for (let iteration = 0; ; iteration++) {
    const isHeld = assemble(network, x, set, iteration === 0, isTangent);
    measure(network);
    const { left, node } = MEASURE;
    stalled = isHeld || left <= 0.25 * before ? 0 : stalled + 1;
    const isDone = left <= 1 || (stalled >= PATIENCE && left <= LAST_RESORT);
    if (!isHeld && isDone) return { status: 'solved', iterations: iteration, worst: -1 };
    if (iteration >= set.longest || Number.isNaN(left)) return { status: 'not-converged', iterations: iteration, worst: node };
    before = isHeld ? Number.POSITIVE_INFINITY : left;
    if (!factor(network, work, work.factors !== null && work.factors === stands)) return { status: 'singular', iterations: iteration, worst: node };
    stands = work.factors;
    work.isTangent = isTangent && !isHeld && set.gmin === 0;
    isTangent = !isHeld;
    for (let k = 0; k < n; k++) step[k] = -residual[k]!;
    solve(work.factors!, step, step);
    for (let k = 0; k < n; k++) {
      const old = x[k]!;
      const move = step[k]! + rest[k]!;
      const now = old + move;
      x[k] = now;
      // Exact while the move is the smaller of the two, as it is near the end.
      rest[k] = move - (now - old);
    }
  }
}
