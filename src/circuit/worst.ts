import type { Network } from './network.ts';
import { regions } from './regions.ts';
import { cornerFactors, scaled } from './scaled.ts';
import { type Freedom, Linearised, type Target, targetValue } from './sensitivity.ts';
import { type SolveOptions, solveAtRest } from './solve.ts';
import type { Element, Solution } from './types.ts';

/** A figure that is to be as small or as large as the tolerances allow. */
export interface Aim {
  readonly target: Target;
  readonly side: 'min' | 'max';
}

/** Where one tolerance was put. */
export interface CornerEntry {
  readonly element: string;
  readonly param: string;
  readonly factor: number;
  /** By how much this alone moves the target, to first order, V or A. */
  readonly shift: number;
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
/** A parameter that moves the target by less than this is left alone, V or A. */
const FELT = 1e-7;
/** Parameters with less than this share of the largest shift do not keep two aims from being solved together. */
const WEIGHTY = 0.01;
/** A regulator is looked at when this many times the first-order effect of all tolerances could use up its spare input volts. */
const FIRST_ORDER = 1.5;

/**
 * Worst case of a target within the tolerances: every parameter at the end that the sign of its sensitivity picks,
 * solved there again. Where an element changes its region on the way (a regulator drops out, a junction blocks), the
 * signs are taken anew at the corner, that corner is solved too, and the worse counts. So it is with the corner that
 * leaves a regulator the least input.
 */
export function worst(network: Network, elements: readonly Element[], target: Target, side: 'min' | 'max', options: SolveOptions = {}): Worst {
  return worstCases(network, elements, solveAtRest(network, elements, options), [{ target, side }])[0]!;
}

/**
 * Worst cases of many targets of one solved network, in order. Aims that ask for the same end of every parameter that
 * weighs are solved together; what little one of them then has otherwise than it wanted is made up to first order.
 */
export function worstCases(network: Network, elements: readonly Element[], solution: Solution, aims: readonly Aim[]): Worst[] {
  const best = aims.map(({ target }): Worst => ({ value: figureOf(network, elements, solution, target), elements, corner: [], solution }));
  const linearised = Linearised.at(network, elements, solution);
  if (!linearised || linearised.freedoms.length === 0) return best;
  const tried = aims.map(() => new Set<string>());
  const all = aims.map((_, i) => i);
  let wishes = aims.map((aim, i) => wishOf(linearised, aim, i));
  // Taken before the first corner is solved: what is linearised is gone then.
  const starved = starvedInputs(linearised, network, elements, solution);
  const home = regions(network, elements, solution);
  for (const batch of batches(starved)) {
    const { cornered, solved } = solveCorner(network, elements, solution, batch);
    if (solved.status === 'solved' && regions(network, cornered, solved) !== home)
      wishes.push(...wishesAt(network, { elements: cornered, solution: solved, aims: all }, aims));
  }
  for (let round = 0; round < MOST_CORNERS && wishes.length > 0; round++) {
    const points: Point[] = [];
    for (const batch of batches(wishes.filter((w) => !tried[w.aim]!.has(w.key)))) {
      const { cornered, solved } = solveCorner(network, elements, solution, batch);
      for (const wish of batch.wishes) {
        tried[wish.aim]!.add(wish.key);
        const { target, side } = aims[wish.aim]!;
        const value = figureOf(network, cornered, solved, target) + missing(wish, batch);
        if (isWorse(value, best[wish.aim]!.value, side)) best[wish.aim] = { value, elements: cornered, corner: cornerOf(wish), solution: solved };
      }
      if (solved.status === 'solved' && regions(network, cornered, solved) !== home)
        points.push({ elements: cornered, solution: solved, aims: batch.wishes.map((w) => w.aim) });
    }
    wishes = points.flatMap((point) => wishesAt(network, point, aims));
  }
  return best;
}

/** A solved corner at which the signs are taken for some aims. */
interface Point {
  readonly elements: readonly Element[];
  readonly solution: Solution;
  readonly aims: readonly number[];
}

/** What an aim asks of the parameters, in the order of `freedoms`, which is the same at every corner. */
interface Wish {
  readonly aim: number;
  readonly freedoms: readonly Freedom[];
  /** The parameters that are felt, and the change of the target per relative change of each. */
  readonly felt: readonly number[];
  readonly effects: readonly number[];
  readonly side: Aim['side'];
  /** Places in `felt` of those that weigh. */
  readonly weighty: readonly number[];
  readonly key: string;
}

interface Batch {
  /** Factor of each parameter; 0 = nobody has asked yet. */
  readonly factors: Float64Array;
  readonly wishes: Wish[];
}

function wishesAt(network: Network, point: Point, aims: readonly Aim[]): Wish[] {
  const linearised = Linearised.at(network, point.elements, point.solution);
  return linearised ? point.aims.map((aim) => wishOf(linearised, aims[aim]!, aim)) : [];
}

function wishOf(linearised: Linearised, { target, side }: Aim, aim: number): Wish {
  const { freedoms, reaches } = linearised;
  const all = linearised.effects(target);
  const felt: number[] = [];
  const effects: number[] = [];
  let most = 0;
  for (let k = 0; k < all.length; k++) {
    const size = Math.abs(all[k]!) * reaches[k]!;
    // Also false for an effect that is not a number.
    if (!(size > FELT)) continue;
    felt.push(k);
    effects.push(all[k]!);
    if (size > most) most = size;
  }
  const weighty: number[] = [];
  for (let i = 0; i < felt.length; i++) if (Math.abs(effects[i]!) * reaches[felt[i]!]! > WEIGHTY * most) weighty.push(i);
  const key = weighty.map((i) => (effects[i]! > 0 ? felt[i]! : -felt[i]! - 1)).join();
  return { aim, freedoms, felt, effects, side, weighty, key };
}

/** The most that all tolerances together can move a target, to first order. */
function reachOf(linearised: Linearised, target: Target): number {
  const { reaches } = linearised;
  const effects = linearised.effects(target);
  let reach = 0;
  for (let k = 0; k < effects.length; k++) {
    const size = Math.abs(effects[k]!) * reaches[k]!;
    if (size > FELT) reach += size;
  }
  return reach;
}

/**
 * A regulator that regulates hides its input: what happens there has no influence on its output until it drops out.
 * Wishes for least input volts of those that could, for the signs to be taken there as well.
 */
function starvedInputs(linearised: Linearised, network: Network, elements: readonly Element[], solution: Solution): Wish[] {
  const wishes: Wish[] = [];
  for (const e of elements) {
    if ((e.kind !== 'stepdown' || !e.on) && e.kind !== 'linear') continue;
    const target: Target = { plus: e.in, minus: e.gnd };
    const spareV = targetValue(network, elements, solution, target) - e.dropV * upper(e, 'dropV') - e.setV * upper(e, 'setV');
    const reach = reachOf(linearised, target);
    if (reach > 0 && FIRST_ORDER * reach > spareV) wishes.push(wishOf(linearised, { target, side: 'min' }, wishes.length));
  }
  return wishes;
}

function upper(e: Element, param: string): number {
  const tolerance = e.tol?.[param];
  return tolerance === undefined ? 1 : cornerFactors(tolerance)[1];
}

function solveCorner(network: Network, elements: readonly Element[], solution: Solution, batch: Batch): { cornered: Element[]; solved: Solution } {
  const cornered = atCorner(elements, batch);
  return { cornered, solved: solveAtRest(network, cornered, { start: solution.volts }) };
}

/** The end of its tolerance at which an aim wants the parameter at place `i` of what it feels. */
function wanted({ felt, effects, freedoms, side }: Wish, i: number): number {
  const { down, up } = freedoms[felt[i]!]!;
  return effects[i]! > 0 === (side === 'max') ? up : down;
}

/** Puts each wish into the first batch that it does not contradict. */
function batches(wishes: readonly Wish[]): Batch[] {
  const list: Batch[] = [];
  for (const wish of wishes) {
    const { felt, weighty } = wish;
    let batch = list.find(({ factors }) => weighty.every((i) => factors[felt[i]!] === 0 || factors[felt[i]!] === wanted(wish, i)));
    if (!batch) {
      batch = { factors: new Float64Array(wish.freedoms.length), wishes: [] };
      list.push(batch);
    }
    batch.wishes.push(wish);
    for (const i of weighty) batch.factors[felt[i]!] = wanted(wish, i);
  }
  // What weighs little is set where nobody has asked for it.
  for (const { factors, wishes } of list) {
    for (const wish of wishes) for (let i = 0; i < wish.felt.length; i++) if (factors[wish.felt[i]!] === 0) factors[wish.felt[i]!] = wanted(wish, i);
  }
  return list;
}

/** What a wish would still move if all of it had been granted, V or A. */
function missing(wish: Wish, batch: Batch): number {
  let sum = 0;
  for (let i = 0; i < wish.felt.length; i++) sum += wish.effects[i]! * (wanted(wish, i) - batch.factors[wish.felt[i]!]!);
  return sum;
}

/** What weighs in a corner, each parameter with what it moves alone. */
function cornerOf(wish: Wish): CornerEntry[] {
  return wish.weighty
    .map((i) => {
      const factor = wanted(wish, i);
      const { element, param } = wish.freedoms[wish.felt[i]!]!;
      return { element: element.id, param, factor, shift: wish.effects[i]! * (factor - 1) };
    })
    .filter((c) => c.factor !== 1);
}

function atCorner(elements: readonly Element[], { factors, wishes }: Batch): Element[] {
  const { freedoms } = wishes[0]!;
  let k = 0;
  return elements.map((e) => {
    let at = e;
    for (; freedoms[k]?.element.id === e.id; k++) if (factors[k] !== 0 && factors[k] !== 1) at = scaled(at, freedoms[k]!.param, factors[k]!);
    return at;
  });
}

function figureOf(network: Network, elements: readonly Element[], solution: Solution, target: Target): number {
  return solution.status === 'solved' ? targetValue(network, elements, solution, target) : Number.NaN;
}

function isWorse(value: number, than: number, side: 'min' | 'max'): boolean {
  if (Number.isNaN(value)) return false;
  return Number.isNaN(than) || (side === 'min' ? value < than : value > than);
}
