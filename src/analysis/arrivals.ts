import { type CornerEntry, type Sensitivity, sensitivities, worst } from '../circuit/index.ts';
import type { Element, Settled } from '../circuit/types.ts';
import type { LoadFact } from '../parts/types.ts';
import type { Band, VehicleState } from '../plan/types.ts';
import type { PartView } from './factsTypes.ts';
import { type Graph, nodeName } from './graph.ts';
import type { Moment } from './network.ts';
import type { Solver, Walked } from './readings.ts';
import { type Arrival, KEY_POSITIONS, type Reading } from './types.ts';

export interface ArrivalInputs {
  readonly graph: Graph;
  readonly solver: Solver;
  readonly walks: Readonly<Record<Band, Walked>>;
  readonly design: { readonly moment: Moment; readonly settled: Settled; readonly reading: Reading };
}

/** A load counts as running where it gets at least this share of its nominal volts. */
const RUNNING_SHARE = 0.5;
/** States that give the same volts but for rounding: the first of the walk is named. */
const SAME_V = 1e-6;

/**
 * What arrives at every load and converter: typical volts in each key position, and the worst low and high over all
 * states in which it runs, with part tolerances set to the corner that the sign of their sensitivity picks.
 */
export function arrivals(input: ArrivalInputs): Arrival[] {
  const terminalAt = new Map(input.solver.index.terminals.map((t, i) => [t, i]));
  const list: Arrival[] = [];
  for (const view of input.graph.views.values()) {
    for (const load of view.facts.loads ?? []) {
      const arrival = arrivalOf(input, terminalAt, view, load);
      if (arrival) list.push(arrival);
    }
  }
  return list;
}

function arrivalOf(input: ArrivalInputs, terminalAt: ReadonlyMap<string, number>, view: PartView, load: LoadFact): Arrival | null {
  const plus = terminalAt.get(nodeName(view, load.plus));
  const minus = terminalAt.get(nodeName(view, load.minus));
  if (plus === undefined || minus === undefined) return null;
  const across = (r: Reading): number => (r.status === 'solved' ? r.terminalV[plus]! - r.terminalV[minus]! : Number.NaN);
  const at = (state: VehicleState, band: Band): number => {
    const reading = input.walks[band].readings.find((r) => r.state === state);
    return reading ? across(reading) : Number.NaN;
  };
  const runs = (v: number): boolean => v > RUNNING_SHARE * load.nominalV;
  let low: { v: number; reading: Reading } | null = null;
  for (const reading of [...input.walks.low.readings, input.design.reading]) {
    if (!runs(at(reading.state, 'typical'))) continue;
    const v = across(reading);
    if (Number.isFinite(v) && (low === null || v < low.v - SAME_V)) low = { v, reading };
  }
  let high: { v: number; reading: Reading } | null = null;
  for (const reading of input.walks.high.readings) {
    const v = across(reading);
    if (runs(v) && (high === null || v > high.v + SAME_V)) high = { v, reading };
  }
  return {
    part: view.part.id,
    label: load.label,
    plus: load.plus,
    minus: load.minus,
    nominalV: load.nominalV,
    minV: load.minV,
    maxV: load.maxV,
    typical: KEY_POSITIONS.map((k) => at(k.state, 'typical')),
    worstLow: low && cornered(input, view, load, low.reading, 'min', low.v),
    worstHigh: high && cornered(input, view, load, high.reading, 'max', high.v),
  };
}

/** The same reading again with part tolerances at their worst corner; the plain value when that cannot be solved. */
function cornered(input: ArrivalInputs, view: PartView, load: LoadFact, reading: Reading, way: 'min' | 'max', plain: number): Arrival['worstLow'] {
  const design = reading === input.design.reading;
  const moment: Moment = design ? input.design.moment : { state: reading.state, band: reading.band };
  const settled = design ? input.design.settled : input.walks[reading.band].settledAt.get(reading.state)!;
  const elements = input.solver.elementsOf(moment, settled.states);
  const target = { plus: nodeName(view, load.plus), minus: nodeName(view, load.minus) };
  const found = worst(input.solver.network, elements, target, way, { start: settled.solution.volts });
  const effects = effectOf(sensitivities(input.solver.network, elements, settled.solution, target), elements);
  const better = Number.isFinite(found.value) && (way === 'min' ? found.value <= plain : found.value >= plain);
  return {
    v: better ? found.value : plain,
    state: reading.state,
    corner: better ? inWords(input.graph, found.corner, effects) : 'no tolerance matters here',
  };
}

const PARAM_WORDS: Readonly<Record<string, string>> = {
  setV: 'output set',
  ohm: 'resistance',
  outOhm: 'output resistance',
  vF: 'forward voltage',
  ctr: 'transfer ratio',
  amp: 'current',
  watt: 'power',
  dropV: 'drop-out',
};

/** Parameter value times sensitivity: what a tolerance of one would do, V. */
function effectOf(found: readonly Sensitivity[], elements: readonly Element[]): ReadonlyMap<string, number> {
  const byId = new Map(elements.map((e) => [e.id, e]));
  return new Map(
    found.map((s) => [`${s.element}|${s.param}`, Math.abs(s.value * Number((byId.get(s.element) as unknown as Record<string, unknown>)[s.param] ?? 0))]),
  );
}

/** Less than this share of the whole shift is not worth a word. */
const WORTH_SAYING = 0.1;

function inWords(graph: Graph, corner: readonly CornerEntry[], effects: ReadonlyMap<string, number>): string {
  const shift = (c: CornerEntry): number => Math.abs(c.factor - 1) * (effects.get(`${c.element}|${c.param}`) ?? 0);
  const whole = corner.reduce((sum, c) => sum + shift(c), 0);
  if (whole < 1e-3) return 'no tolerance matters here';
  const told = [...corner].sort((a, b) => shift(b) - shift(a)).filter((c) => shift(c) > WORTH_SAYING * whole);
  const words = told.slice(0, 3).map((c) => {
    const view = graph.views.get(c.element.split(':')[0]!);
    const percent = (c.factor - 1) * 100;
    return `${view?.item ?? ''} ${PARAM_WORDS[c.param] ?? c.param} ${percent >= 0 ? '+' : '−'}${Math.abs(percent).toFixed(Math.abs(percent) < 10 && percent % 1 !== 0 ? 1 : 0)} %`.trim();
  });
  return words.join(', ') || 'no tolerance matters here';
}
