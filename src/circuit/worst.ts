import type { Network } from './network.ts';
import { regions } from './regions.ts';
import { cornerFactors, scaled } from './scaled.ts';
import { Linearised, type Target, targetValue } from './sensitivity.ts';
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
  const tried = aims.map(() => new Set<string>());
  const home = solution.status === 'solved' ? regions(network, elements, solution) : '';
  const all = aims.map((_, i) => i);
  let points: Point[] = [{ elements, solution, aims: all }];
  if (home !== '') for (const point of starvedCorners(network, elements, solution, home)) points.push({ ...point, aims: all });
  for (let round = 0; round < MOST_CORNERS && points.length > 0; round++) {
    const wishes = points.flatMap((point) => wishesAt(network, point, aims)).filter((w) => !tried[w.aim]!.has(w.key));
    points = [];
    for (const batch of batches(wishes)) {
      const cornered = atCorner(elements, batch);
      const solved = solveAtRest(network, cornered, { start: solution.volts });
      for (const wish of batch.wishes) {
        tried[wish.aim]!.add(wish.key);
        const { target, side } = aims[wish.aim]!;
        const value = figureOf(network, cornered, solved, target) + missing(wish, batch);
        if (isWorse(value, best[wish.aim]!.value, side)) best[wish.aim] = { value, elements: cornered, corner: cornerOf(wish), solution: solved };
      }
      if (solved.status === 'solved' && regions(network, cornered, solved) !== home)
        points.push({ elements: cornered, solution: solved, aims: batch.wishes.map((w) => w.aim) });
    }
  }
  return best;
}

/** A solved corner at which the signs are taken for some aims. */
interface Point {
  readonly elements: readonly Element[];
  readonly solution: Solution;
  readonly aims: readonly number[];
}

/** One parameter as an aim wants it. */
interface Want {
  readonly element: string;
  readonly param: string;
  readonly key: string;
  readonly factor: number;
  /** Change of the target per relative change of the parameter. */
  readonly effect: number;
  /** The most that its tolerance can move the target. */
  readonly reach: number;
}

/** What an aim asks of the parameters: all that it feels, and those among them that weigh. */
interface Wish {
  readonly aim: number;
  readonly felt: readonly Want[];
  readonly weighty: readonly Want[];
  readonly key: string;
}

interface Batch {
  readonly factors: Map<string, number>;
  readonly wishes: Wish[];
}

function wishesAt(network: Network, point: Point, aims: readonly Aim[]): Wish[] {
  const linearised = Linearised.at(network, point.elements, point.solution);
  return linearised ? point.aims.map((aim) => wishOf(linearised, aims[aim]!, aim)) : [];
}

function wishOf(linearised: Linearised, { target, side }: Aim, aim: number): Wish {
  const effects = linearised.effects(target);
  const felt: Want[] = [];
  let most = 0;
  linearised.freedoms.forEach(({ element: { id, tol }, param }, k) => {
    const effect = effects[k]!;
    const [down, up] = cornerFactors(tol![param]!);
    const reach = Math.abs(effect) * Math.max(Math.abs(down - 1), Math.abs(up - 1));
    // Written so that an effect that is not a number is left out, too.
    if (!(reach > FELT)) return;
    felt.push({ element: id, param, key: `${id}|${param}`, factor: effect > 0 === (side === 'max') ? up : down, effect, reach });
    most = Math.max(most, reach);
  });
  const weighty = felt.filter((w) => w.reach > WEIGHTY * most);
  return { aim, felt, weighty, key: weighty.map((w) => `${w.key}:${w.factor}`).join() };
}

/**
 * A regulator that regulates hides its input: what happens there has no influence on its output until it drops out.
 * Corners of least input volts at which some element really works otherwise than at home, for the signs to be taken.
 */
function starvedCorners(network: Network, elements: readonly Element[], solution: Solution, home: string): Omit<Point, 'aims'>[] {
  const linearised = Linearised.at(network, elements, solution);
  if (!linearised || linearised.freedoms.length === 0) return [];
  const wishes: Wish[] = [];
  for (const e of elements) {
    if ((e.kind !== 'stepdown' || !e.on) && e.kind !== 'linear') continue;
    const target: Target = { plus: e.in, minus: e.gnd };
    const spareV = targetValue(network, elements, solution, target) - e.dropV * upper(e, 'dropV') - e.setV * upper(e, 'setV');
    const wish = wishOf(linearised, { target, side: 'min' }, wishes.length);
    const reach = wish.felt.reduce((sum, w) => sum + w.reach, 0);
    if (wish.felt.length > 0 && FIRST_ORDER * reach > spareV) wishes.push(wish);
  }
  const found: Omit<Point, 'aims'>[] = [];
  for (const batch of batches(wishes)) {
    const cornered = atCorner(elements, batch);
    const solved = solveAtRest(network, cornered, { start: solution.volts });
    if (solved.status === 'solved' && regions(network, cornered, solved) !== home) found.push({ elements: cornered, solution: solved });
  }
  return found;
}

function upper(e: Element, param: string): number {
  const tolerance = e.tol?.[param];
  return tolerance === undefined ? 1 : cornerFactors(tolerance)[1];
}

/** Puts each wish into the first batch that it does not contradict. */
function batches(wishes: readonly Wish[]): Batch[] {
  const list: Batch[] = [];
  for (const wish of wishes) {
    let batch = list.find(({ factors }) => wish.weighty.every((w) => (factors.get(w.key) ?? w.factor) === w.factor));
    if (!batch) {
      batch = { factors: new Map(), wishes: [] };
      list.push(batch);
    }
    batch.wishes.push(wish);
    for (const w of wish.weighty) batch.factors.set(w.key, w.factor);
  }
  // What weighs little is set where nobody has asked for it.
  for (const { factors, wishes } of list) {
    for (const wish of wishes) for (const w of wish.felt) if (!factors.has(w.key)) factors.set(w.key, w.factor);
  }
  return list;
}

/** What a wish would still move if all of it had been granted, V or A. */
function missing(wish: Wish, batch: Batch): number {
  return wish.felt.reduce((sum, w) => sum + w.effect * (w.factor - batch.factors.get(w.key)!), 0);
}

/** A wish as the corner it stands for, each parameter with what it moves alone. */
function cornerOf(wish: Wish): CornerEntry[] {
  return wish.felt.filter((w) => w.factor !== 1).map(({ element, param, factor, effect }) => ({ element, param, factor, shift: effect * (factor - 1) }));
}

function atCorner(elements: readonly Element[], batch: Batch): Element[] {
  return elements.map((e) => {
    if (!e.tol) return e;
    let at = e;
    for (const param of Object.keys(e.tol)) {
      const factor = batch.factors.get(`${e.id}|${param}`);
      if (factor !== undefined) at = scaled(at, param, factor);
    }
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
