import type { Network } from './network.ts';
import { regions } from './regions.ts';
import { cornerFactors, figure, scaled } from './scaled.ts';
import { type Sensitivity, sensitivities, type Target, targetValue } from './sensitivity.ts';
import { type SolveOptions, solveAtRest } from './solve.ts';
import type { Element, Solution } from './types.ts';

/** Where one tolerance was put. */
export interface CornerEntry {
  readonly element: string;
  readonly param: string;
  readonly factor: number;
}

export interface Worst {
  /** The target at the corner, V or A; NaN when no corner could be solved. */
  readonly value: number;
  /** The elements with the corner's values, in the compiled order. */
  readonly elements: readonly Element[];
  readonly corner: readonly CornerEntry[];
  readonly solution: Solution;
}

/** Corners tried while devices change their region from one to the next. */
const MOST_CORNERS = 4;

/**
 * Worst case of a target within the tolerances: every parameter at the end that the sign of its sensitivity picks,
 * solved there again. Where an element changes its region on the way (a regulator drops out, a junction blocks), the
 * signs are taken anew at the corner, that corner is solved too, and the worse counts.
 */
export function worst(network: Network, elements: readonly Element[], target: Target, side: 'min' | 'max', options: SolveOptions = {}): Worst {
  const solution = solveAtRest(network, elements, options);
  const nominal: Worst = { value: figureOf(network, elements, solution, target), elements, corner: [], solution };
  let best = nominal;
  let at = nominal;
  const tried = new Set<string>();
  for (let count = 0; count < MOST_CORNERS && at.solution.status === 'solved'; count++) {
    const corner = pickCorner(elements, sensitivities(network, at.elements, at.solution, target), side);
    const key = corner.map((c) => `${c.element}.${c.param}:${c.factor}`).join();
    if (tried.has(key)) break;
    tried.add(key);
    const next = solveCorner(network, elements, target, corner, { ...options, start: at.solution.volts });
    if (isWorse(next.value, best.value, side)) best = next;
    if (next.solution.status !== 'solved' || regions(network, elements, solution) === regions(network, next.elements, next.solution)) break;
    at = next;
  }
  return best;
}

function figureOf(network: Network, elements: readonly Element[], solution: Solution, target: Target): number {
  return solution.status === 'solved' ? targetValue(network, elements, solution, target) : Number.NaN;
}

function isWorse(value: number, than: number, side: 'min' | 'max'): boolean {
  if (Number.isNaN(value)) return false;
  return Number.isNaN(than) || (side === 'min' ? value < than : value > than);
}

function pickCorner(elements: readonly Element[], found: readonly Sensitivity[], side: 'min' | 'max'): CornerEntry[] {
  const byId = new Map(elements.map((e) => [e.id, e]));
  const corner: CornerEntry[] = [];
  for (const { element, param, value } of found) {
    const e = byId.get(element);
    const tolerance = e?.tol?.[param];
    if (e === undefined || tolerance === undefined || value === 0 || Number.isNaN(value)) continue;
    const [down, up] = cornerFactors(tolerance);
    // A larger factor makes a negative figure smaller.
    const factor = value * figure(e, param) > 0 === (side === 'max') ? up : down;
    if (factor !== 1) corner.push({ element, param, factor });
  }
  return corner;
}

function solveCorner(network: Network, elements: readonly Element[], target: Target, corner: readonly CornerEntry[], options: SolveOptions): Worst {
  const moved = new Map<string, CornerEntry[]>();
  for (const entry of corner) moved.set(entry.element, [...(moved.get(entry.element) ?? []), entry]);
  const cornered = elements.map((e) => (moved.get(e.id) ?? []).reduce((now, { param, factor }) => scaled(now, param, factor), e));
  const solution = solveAtRest(network, cornered, options);
  return { value: figureOf(network, cornered, solution, target), elements: cornered, corner, solution };
}
