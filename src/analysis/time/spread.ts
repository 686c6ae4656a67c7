import { allAmps, cornerFactors, type Network, settle } from '../../circuit/index.ts';
import { scaled } from '../../circuit/scaled.ts';
import type { Device, Element, Settled } from '../../circuit/types.ts';
import type { Band } from '../../plan/types.ts';
import type { Instant } from '../network.ts';
import { BANDS, isComputed, MOMENT_S, type Walked, walk } from '../readings.ts';
import { type TimeBase, untouched } from './base.ts';
import { randomFrom } from './random.ts';
import { MOMENTS, type SpreadMoment, spreadRows } from './spreadRows.ts';
import type { Spread } from './types.ts';

export interface SpreadOptions {
  /** The same seed gives the same result. */
  readonly seed?: number;
  readonly runs?: number;
}

const RUNS = 400;
/** What is known is handed out after so many runs. */
const RUNS_A_STEP = 20;
/** Parameters of one element that vary, at most. */
const MOST_PARAMS = 8;

/** One set of parts as they may have come out of the bag. */
export interface Sample {
  /** What a moment settles to with these parts. */
  at(moment: SpreadMoment): { readonly elements: readonly Element[]; readonly settled: Settled };
  /** NaN where the moment has no solution or the node floats. */
  volts(moment: SpreadMoment, node: string): number;
  amps(moment: SpreadMoment, element: string, port?: string): number;
  /** A number of 0..1 of its own for something that is no element, e.g. a timer. */
  free(id: string): number;
}

/**
 * Percentiles of what rules watch, over the tolerances of all parts: each figure of each element is drawn evenly from
 * its tolerance, apart from the others (makers promise ends, not shapes). Supply, ambient and load level are those of the
 * band that is worst for the figure. Yields what is known after every twenty runs.
 */
export function* spread(of: TimeBase, { seed = 1, runs = RUNS }: SpreadOptions = {}): Generator<Spread, Spread> {
  const base = untouched(of);
  const rows = spreadRows(base);
  const sampler = new Sampler(base);
  const random = randomFrom(seed);
  const values = rows.map(() => new Float64Array(runs).fill(Number.NaN));
  for (let done = 0; done < runs; ) {
    const sample = sampler.draw(random);
    rows.forEach((row, k) => {
      values[k]![done] = row.value(sample);
    });
    done++;
    if (done % RUNS_A_STEP === 0 && done < runs) yield spreadOf(rows, values, seed, runs, done);
  }
  return spreadOf(rows, values, seed, runs, runs);
}

/** The same, all at once. */
export function fullSpread(base: TimeBase, options: SpreadOptions = {}): Spread {
  const steps = spread(base, options);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

function spreadOf(rows: ReturnType<typeof spreadRows>, values: readonly Float64Array[], seed: number, runs: number, done: number): Spread {
  return {
    seed,
    runs,
    done,
    rows: rows.flatMap((row, k) => {
      const sorted = values[k]!.subarray(0, done)
        .filter((v) => Number.isFinite(v))
        .sort();
      if (sorted.length === 0) return [];
      const { limit } = row;
      const isBeyond = (v: number): boolean => limit !== null && (row.bad === 'below' ? v < limit : v > limit);
      return [
        {
          id: row.id,
          label: row.label,
          unit: row.unit,
          p5: percentile(sorted, 0.05),
          p50: percentile(sorted, 0.5),
          p95: percentile(sorted, 0.95),
          least: sorted[0]!,
          most: sorted.at(-1)!,
          limit,
          beyond: limit === null ? null : sorted.filter(isBeyond).length / sorted.length,
        },
      ];
    }),
  };
}

/** Straight line between the two nearest of a rising row. */
function percentile(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const k = Math.min(Math.floor(at), sorted.length - 2);
  if (k < 0) return sorted[0]!;
  return sorted[k]! + (at - k) * (sorted[k + 1]! - sorted[k]!);
}

/** Draws parts and solves the moments with them, each from the plain walk's states and volts. */
class Sampler {
  private readonly moments: ReadonlyMap<SpreadMoment, { readonly instant: Instant; readonly walked: Walked; readonly moment: SpreadMoment }>;
  private readonly network: Network;
  private readonly draws: Float64Array;

  constructor({ solver }: TimeBase) {
    const walks = new Map<Band, Walked>(BANDS.map((band) => [band, walk(solver, band)]));
    this.moments = new Map(MOMENTS.map((m) => [m, { instant: solver.maker.at({ state: m.state, band: m.band }), walked: walks.get(m.band)!, moment: m }]));
    this.network = solver.network;
    this.draws = new Float64Array(MOST_PARAMS * solver.network.kinds.length);
  }

  draw(random: () => number): Sample {
    const draws = this.draws.map(() => random());
    const frees = new Map<string, number>();
    const solved = new Map<SpreadMoment, { elements: readonly Element[]; settled: Settled }>();
    const at = (moment: SpreadMoment): { elements: readonly Element[]; settled: Settled } => {
      let found = solved.get(moment);
      if (!found) {
        found = this.solve(moment, draws);
        solved.set(moment, found);
      }
      return found;
    };
    return {
      at,
      volts: (moment, node) => {
        const { settled } = at(moment);
        const k = this.network.nodeIndex.get(node);
        if (k === undefined || !isComputed(settled) || settled.solution.floating.has(k)) return Number.NaN;
        return k < 0 ? 0 : settled.solution.volts[k]!;
      },
      amps: (moment, element, port) => {
        const { elements, settled } = at(moment);
        const k = this.network.elementIndex.get(element);
        if (k === undefined || !isComputed(settled)) return Number.NaN;
        const { first, second } = allAmps(this.network, elements, settled.solution);
        return (port === 'out' ? second : first)[k]!;
      },
      free: (id) => {
        let found = frees.get(id);
        if (found === undefined) {
          found = random();
          frees.set(id, found);
        }
        return found;
      },
    };
  }

  private solve(moment: SpreadMoment, draws: Float64Array): { elements: readonly Element[]; settled: Settled } {
    const { instant, walked } = this.moments.get(moment)!;
    const plain = walked.settledAt.get(moment.from)!;
    let last: readonly Element[] | null = null;
    let drawn: readonly Element[] = [];
    const elementsFor = (on: (id: string) => boolean): readonly Element[] => {
      const list = instant.elements(on);
      if (list !== last) drawn = list.map((e, k) => drawnElement(e, draws, MOST_PARAMS * k));
      last = list;
      return drawn;
    };
    const devices: readonly Device[] = instant.devices;
    const settled = settle(this.network, elementsFor, devices, plain.states, {
      longestS: moment.state === 'START' ? MOMENT_S : Number.POSITIVE_INFINITY,
      ...(plain.solution.status === 'solved' ? { start: plain.solution.volts } : {}),
    });
    return { elements: elementsFor((id) => settled.states.get(id) ?? false), settled };
  }
}

/** An element with each figure that has a tolerance where its draw puts it. */
function drawnElement(e: Element, draws: Float64Array, from: number): Element {
  if (!e.tol) return e;
  let drawn = e;
  let k = from;
  for (const param of Object.keys(e.tol)) {
    const [down, up] = cornerFactors(e.tol[param]!);
    drawn = scaled(drawn, param, down + draws[k++]! * (up - down));
  }
  return drawn;
}
