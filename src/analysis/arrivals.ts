import { type Aim, type CornerEntry, type Worst, worstCases } from '../circuit/index.ts';
import type { Settled } from '../circuit/types.ts';
import type { LoadFact } from '../parts/types.ts';
import { gather } from '../plan/gather.ts';
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
/** Below this nothing arrives, V. */
const DEAD_V = 0.5;

/** A load with the reading in which least or most arrives, still without tolerances. */
interface Extreme {
  readonly v: number;
  readonly reading: Reading;
  readonly side: 'min' | 'max';
  readonly view: PartView;
  readonly load: LoadFact;
}

/** What arrives, without the worst corners; those take solves of their own and are worked out when they are asked for. */
export interface Arrivals {
  readonly typical: readonly Arrival[];
  worst(): Arrival[];
}

/**
 * What arrives at every load and converter: typical volts in each key position, and the worst low and high over all
 * states in which it runs, with part tolerances set to the corner that the sign of their sensitivity picks.
 */
export function arrivals(input: ArrivalInputs): Arrivals {
  const terminalAt = new Map(input.solver.index.terminals.map((t, i) => [t, i]));
  const stateOf = (band: Band): Map<VehicleState, Reading> => new Map(input.walks[band].readings.map((r) => [r.state, r]));
  const typical = stateOf('typical');
  const cutOff = openCutOuts(input);
  const rows: { view: PartView; load: LoadFact; typical: (state: VehicleState) => number; low: Extreme | null; high: Extreme | null }[] = [];
  for (const view of input.graph.views.values()) {
    for (const load of view.facts.loads ?? []) {
      const plus = terminalAt.get(nodeName(view, load.plus));
      const minus = terminalAt.get(nodeName(view, load.minus));
      if (plus === undefined || minus === undefined) continue;
      const across = (r: Reading | undefined): number => (r?.status === 'solved' ? r.terminalV[plus]! - r.terminalV[minus]! : Number.NaN);
      const runs = (v: number): boolean => v > RUNNING_SHARE * load.nominalV;
      let low: Extreme | null = null;
      for (const reading of [...input.walks.low.readings, input.design.reading]) {
        if (!runs(across(typical.get(reading.state)))) continue;
        const v = across(reading);
        if (Math.abs(v) < DEAD_V && cutOff(reading)) continue;
        if (Number.isFinite(v) && (low === null || v < low.v - SAME_V)) low = { v, reading, side: 'min', view, load };
      }
      let high: Extreme | null = null;
      for (const reading of input.walks.high.readings) {
        const v = across(reading);
        if (runs(v) && (high === null || v > high.v + SAME_V)) high = { v, reading, side: 'max', view, load };
      }
      rows.push({ view, load, typical: (state) => across(typical.get(state)), low, high });
    }
  }
  const plain = rows.map(
    ({ view, load, typical: at }): Arrival => ({
      part: view.part.id,
      label: load.label,
      plus: load.plus,
      minus: load.minus,
      nominalV: load.nominalV,
      minV: load.minV,
      maxV: load.maxV,
      typical: KEY_POSITIONS.map((k) => at(k.state)),
      worstLow: null,
      worstHigh: null,
    }),
  );
  return {
    typical: plain,
    worst: () => {
      const extremes = rows.flatMap((r) => [r.low, r.high]).filter((x): x is Extreme => x !== null);
      const worst = cornered(input, extremes);
      return plain.map((a, i) => {
        const { low, high } = rows[i]!;
        return { ...a, worstLow: low && worst.get(low)!, worstHigh: high && worst.get(high)! };
      });
    },
  };
}

/** Has a low-voltage cut-out opened in a reading? What is dead behind it is not short of volts: it has been switched off in time. */
function openCutOuts({ graph, solver }: ArrivalInputs): (r: Reading) => boolean {
  const contacts = solver.index.devices.flatMap((id, i) => {
    const [part, device] = id.split(':');
    return device === 'contact' && graph.views.get(part!)?.kind.kind === 'low-voltage-cutout' ? [i] : [];
  });
  return (r) => contacts.some((i) => r.deviceOn[i] !== 1);
}

/** The same readings again with part tolerances at their worst corner; the plain value when that cannot be solved. */
function cornered(input: ArrivalInputs, extremes: readonly Extreme[]): Map<Extreme, NonNullable<Arrival['worstLow']>> {
  const { solver, design, walks, graph } = input;
  const byReading = new Map<Reading, Extreme[]>();
  for (const x of extremes) gather(byReading, x.reading, x);
  const found = new Map<Extreme, NonNullable<Arrival['worstLow']>>();
  for (const [reading, list] of byReading) {
    const isDesign = reading === design.reading;
    const settled = isDesign ? design.settled : walks[reading.band].settledAt.get(reading.state)!;
    const aims = list.map(({ view, load, side }): Aim => ({ side, target: { plus: nodeName(view, load.plus), minus: nodeName(view, load.minus) } }));
    worstCases(solver.network, settled.elements, settled.solution, aims).forEach((worst: Worst, i) => {
      const plain = list[i]!;
      found.set(plain, {
        v: Number.isFinite(worst.value) ? worst.value : plain.v,
        state: reading.state,
        corner: inWords(graph, worst.corner),
      });
    });
  }
  return found;
}

const PARAM_WORDS: Readonly<Record<string, string>> = {
  setV: 'output set',
  volt: 'voltage',
  ohm: 'resistance',
  esrOhm: 'series resistance',
  leakOhm: 'insulation',
  farad: 'capacitance',
  henry: 'inductance',
  vBr: 'breakdown voltage',
  limitA: 'current limit',
  quiescentA: 'own draw',
  darkA: 'dark current',
  outOhm: 'output resistance',
  vF: 'forward voltage',
  ctr: 'transfer ratio',
  amp: 'current',
  watt: 'power',
  dropV: 'drop-out',
};

/** Less than this share of the whole shift is not worth a word. */
const WORTH_SAYING = 0.1;

function inWords(graph: Graph, corner: readonly CornerEntry[]): string {
  // Parts alike differ by rounding only: they are named in the order of the plan.
  const size = (c: CornerEntry): number => Number(Math.abs(c.shift).toPrecision(6));
  const whole = corner.reduce((sum, c) => sum + size(c), 0);
  if (whole < 1e-3) return 'no tolerance matters here';
  const told = [...corner].sort((a, b) => size(b) - size(a)).filter((c) => size(c) > WORTH_SAYING * whole);
  const words = told.slice(0, 3).map((c) => {
    const view = graph.views.get(c.element.split(':')[0]!);
    const percent = (c.factor - 1) * 100;
    return `${view?.item ?? ''} ${PARAM_WORDS[c.param] ?? c.param} ${percent >= 0 ? '+' : '−'}${Math.abs(percent).toFixed(Math.abs(percent) < 10 && percent % 1 !== 0 ? 1 : 0)} %`.trim();
  });
  return words.join(', ') || 'no tolerance matters here';
}
