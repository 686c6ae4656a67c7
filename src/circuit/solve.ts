import { isAmbiguous } from './branch.ts';
import { loadValues } from './load.ts';
import type { Network } from './network.ts';
import { newton, type Outcome, type Setting } from './newton.ts';
import type { Element, Solution } from './types.ts';

const PLAIN: Setting = { lambda: 1, gmin: 0, towards: null, isWarm: false, longest: 60 };
/** From a solution nearby this is plenty; where it is not, the solution is not nearby and starting anew is quicker. */
const LONGEST_WARM = 15;
/** A start volt of this size, or one that is no number, is not taken, V. */
const ABSURD_V = 1e6;
/** Source stepping: first and least step, as shares of the full volts. */
const FIRST_STEP = 1 / 16;
const LEAST_STEP = 1 / 256;

export interface SolveOptions {
  /** Volts to start from, by node index (a solution of the same network). */
  readonly start?: Float64Array | undefined;
  /** Conductance from every node to ground, S; default 0 (floating islands are tied anyway). */
  readonly gmin?: number | undefined;
}

/**
 * Volts at rest of a compiled network. Newton from `start` or from zero; if that fails, or if a constant-power load
 * or converter has more than one possible state, by raising the sources from zero, and last by gmin stepping.
 * Throws only when the elements are not those that were compiled.
 */
export function solveAtRest(network: Network, elements: readonly Element[], options: SolveOptions = {}): Solution {
  loadValues(network, elements);
  const n = network.nodes.length;
  const x = network.work.x;
  const gmin = options.gmin ?? 0;
  x.fill(0);
  const start = options.start;
  const hasStart = start !== undefined && start.length === n;
  if (hasStart) for (let k = 0; k < n; k++) x[k] = Math.abs(start[k]!) < ABSURD_V ? start[k]! : 0;
  let result = newton(network, x, { ...PLAIN, gmin, isWarm: hasStart, longest: hasStart ? LONGEST_WARM : PLAIN.longest });
  let iterations = result.iterations;
  if (result.status !== 'solved' && hasStart) {
    x.fill(0);
    result = newton(network, x, { ...PLAIN, gmin });
    iterations += result.iterations;
  }
  if (result.status !== 'solved' || isAmbiguous(network, x)) {
    const raised = raiseSources(network, x, gmin);
    iterations += raised.iterations;
    result = raised;
    if (result.status !== 'solved') {
      result = stepGmin(network, x, gmin);
      iterations += result.iterations;
    }
  }
  return {
    status: result.status,
    volts: x.slice(0, n),
    rest: network.work.rest.slice(0, n),
    floating: network.work.floating,
    worstNode: result.worst >= 0 ? network.nodes[result.worst]! : null,
    iterations,
  };
}

/** Raises all sources from zero to full and stays on the branch this follows; where that branch ends, the jump is followed in time. */
function raiseSources(network: Network, x: Float64Array, gmin: number): Outcome {
  const { trial } = network.work;
  x.fill(0);
  let lambda = 0;
  let step = FIRST_STEP;
  let iterations = 0;
  let reached = 0;
  let last: Outcome = newton(network, x, { ...PLAIN, lambda: 0, gmin });
  while (lambda < 1) {
    const next = Math.min(1, lambda + step);
    trial.set(x);
    last = newton(network, trial, { ...PLAIN, lambda: next, gmin, isWarm: true, longest: 30 });
    iterations += last.iterations;
    let top = 0;
    let moved = 0;
    for (let k = 0; k < x.length; k++) {
      top = Math.max(top, Math.abs(trial[k]!));
      moved = Math.max(moved, Math.abs(trial[k]! - x[k]!));
    }
    // Volts rise with the sources; a much larger move is a jump to another branch.
    const isSmooth = last.status === 'solved' && moved <= (3 * (next - lambda) * Math.max(top, reached)) / next + 0.02 * top;
    if (!isSmooth && step > LEAST_STEP) {
      step /= 2;
      continue;
    }
    if (!isSmooth) {
      trial.set(x);
      last = followInTime(network, trial, next, gmin);
      iterations += last.iterations;
      if (last.status !== 'solved') return { ...last, iterations };
    }
    x.set(trial);
    reached = Math.max(reached, top);
    lambda = next;
    step = Math.min(FIRST_STEP, 2 * step);
  }
  return { ...last, iterations };
}

/**
 * Lets the network come to rest as if every node had the same capacitance: implicit steps whose length grows as the
 * motion dies. It ends on a branch that is stable, the one the network itself would fall to.
 */
function followInTime(network: Network, x: Float64Array, lambda: number, gmin: number): Outcome {
  const from = new Float64Array(x.length);
  const setting: Setting = { ...PLAIN, lambda, isWarm: true, longest: 30 };
  let drag = 1;
  let iterations = 0;
  const step = (tie: number, towards: Float64Array | null): Outcome => {
    const outcome = newton(network, x, { ...setting, gmin: tie + gmin, towards });
    iterations += outcome.iterations;
    return outcome;
  };
  for (let count = 0; count < 200 && drag < 1e9; count++) {
    from.set(x);
    if (step(drag, from).status !== 'solved') {
      x.set(from);
      drag *= 8;
      continue;
    }
    let moved = 0;
    for (let k = 0; k < x.length; k++) moved = Math.max(moved, Math.abs(x[k]! - from[k]!));
    if (moved < 1e-3 && drag < 1e-3) {
      from.set(x);
      const last = step(0, null);
      if (last.status === 'solved') return { ...last, iterations };
      // No rest: the motion only creeps where a branch has just ended, and goes on.
      x.set(from);
    }
    drag *= moved < 0.05 ? 0.25 : moved > 1 ? 1 : 0.7;
  }
  return { ...step(0, null), iterations };
}

/** Ties every node to ground by a conductance that fades. */
function stepGmin(network: Network, x: Float64Array, gmin: number): Outcome {
  x.fill(0);
  let iterations = 0;
  let last: Outcome = { status: 'not-converged', iterations: 0, worst: -1 };
  for (let g = 1; g > 1e-10; g *= 0.1) {
    last = newton(network, x, { ...PLAIN, gmin: g + gmin, isWarm: g < 1 });
    iterations += last.iterations;
    if (last.status !== 'solved') break;
  }
  last = newton(network, x, { ...PLAIN, gmin, isWarm: true });
  return { ...last, iterations: iterations + last.iterations };
}
