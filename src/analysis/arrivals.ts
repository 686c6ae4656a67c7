import { worst } from '../circuit/index.ts';
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
  readonly design: { readonly moment: Moment; readonly states: ReadonlyMap<string, boolean>; readonly reading: Reading };
}

/** A load counts as running where it gets at least this share of its nominal volts. */
const RUNNING_SHARE = 0.5;

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
    if (Number.isFinite(v) && (low === null || v < low.v)) low = { v, reading };
  }
  let high: { v: number; reading: Reading } | null = null;
  for (const reading of input.walks.high.readings) {
    const v = across(reading);
    if (runs(v) && (high === null || v > high.v)) high = { v, reading };
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
  const states = design ? input.design.states : input.walks[reading.band].statesAt.get(reading.state)!;
  const elements = input.solver.elementsOf(moment, states);
  const found = worst(input.solver.network, elements, { plus: nodeName(view, load.plus), minus: nodeName(view, load.minus) }, way);
  const better = Number.isFinite(found.value) && (way === 'min' ? found.value <= plain : found.value >= plain);
  return {
    v: better ? found.value : plain,
    state: reading.state,
    corner: better ? inWords(input.graph, found.corner) : 'no tolerance matters here',
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

function inWords(graph: Graph, corner: readonly { readonly element: string; readonly param: string; readonly factor: number }[]): string {
  const parts = corner.map((c) => {
    const view = graph.views.get(c.element.split(':')[0]!);
    const percent = (c.factor - 1) * 100;
    return `${view?.item ?? c.element} ${PARAM_WORDS[c.param] ?? c.param} ${percent >= 0 ? '+' : '−'}${Math.abs(percent).toFixed(percent % 1 === 0 ? 0 : 1)} %`;
  });
  return parts.length > 3 ? `${parts.slice(0, 3).join(', ')} and ${parts.length - 3} more` : parts.join(', ') || 'no tolerance matters here';
}
