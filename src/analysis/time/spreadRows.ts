import { stopS } from '../../parts/computer/settings.ts';
import type { Band, VehicleState } from '../../plan/types.ts';
import { PARKED_LIMIT_A } from '../../trade/battery.ts';
import { ledMaxA } from '../../trade/optocouplers.ts';
import { OPTOS, type OptoType } from '../../trade/semiconductors.ts';
import type { PartView } from '../factsTypes.ts';
import { type Graph, nodeName } from '../graph.ts';
import { parkedReport, partWatts } from '../power.ts';
import type { TimeBase } from './base.ts';
import { feedPath } from './feedPath.ts';
import type { Sample } from './spread.ts';
import { called } from './words.ts';

/** One moment that is solved for every sample. */
export interface SpreadMoment {
  readonly state: VehicleState;
  readonly band: Band;
  /** The device states it starts from are those of this state of the plain walk. */
  readonly from: VehicleState;
}

export const LOW: SpreadMoment = { state: 'RUN_STOPPED', band: 'low', from: 'RUN_STOPPED' };
export const HIGH: SpreadMoment = { state: 'RUN_CHARGING', band: 'high', from: 'RUN_CHARGING' };
export const CRANK: SpreadMoment = { state: 'START', band: 'low', from: 'RUN_STOPPED' };
export const PARKED: SpreadMoment = { state: 'OFF_ASLEEP', band: 'typical', from: 'OFF_ASLEEP' };
export const MOMENTS: readonly SpreadMoment[] = [LOW, HIGH, CRANK, PARKED];

/** One figure that rules watch. */
export interface SpreadRow {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  readonly limit: number | null;
  /** Which side of the limit is bad. */
  readonly bad: 'below' | 'above';
  /** NaN where the sample has no solution. */
  value(sample: Sample): number;
}

/** The figures of a plan, in the order in which its parts were made. */
export function spreadRows(base: TimeBase): SpreadRow[] {
  const views = [...base.graph.views.values()];
  return [...views.flatMap((v) => rowsOf(base, v)), parkedRow(base)];
}

function rowsOf(base: TimeBase, view: PartView): SpreadRow[] {
  const { kind } = view.kind;
  const id = view.part.id;
  const name = called(view);
  if (kind === 'computer') return [...windowRows(view, `5 V at ${name}`), ...spareRows(base, view)];
  if (kind === 'touch-display') return windowRows(view, `5 V at ${name}`);
  const load = view.facts.loads?.[0];
  if (load && view.facts.sources?.some((s) => s.kind === 'converter')) {
    const value = across(view, load.plus, load.minus, CRANK);
    return [{ id: `${id}:input`, label: `Into ${name}, cranking`, unit: 'V', limit: load.minV, bad: 'below', value }];
  }
  if (kind === 'optocoupler') return ledRows(view, 'opto', 'led', ledMaxA(OPTOS[view.s.str('type') as OptoType], view.maxC));
  if (kind === 'led') return ledRows(view, 'led', undefined, view.s.num('ratedA'));
  return [];
}

function windowRows(view: PartView, label: string): SpreadRow[] {
  const load = view.facts.loads?.[0];
  if (!load) return [];
  const id = view.part.id;
  return [
    { id: `${id}:low`, label: `${label}, least`, unit: 'V', limit: load.minV, bad: 'below', value: across(view, load.plus, load.minus, LOW) },
    { id: `${id}:high`, label: `${label}, most`, unit: 'V', limit: load.maxV, bad: 'above', value: across(view, load.plus, load.minus, HIGH) },
  ];
}

function ledRows(view: PartView, element: string, port: string | undefined, limit: number): SpreadRow[] {
  const id = view.part.id;
  return [
    {
      id: `${id}:led`,
      label: `LED current in ${called(view)}, running`,
      unit: 'A',
      limit,
      bad: 'above',
      value: (sample) => sample.amps(HIGH, `${id}:${element}`, port),
    },
  ];
}

/** Seconds between the stop and the end of the hold, from the timers' own tolerance. */
function spareRows({ graph }: TimeBase, view: PartView): SpreadRow[] {
  if (view.s.num('senseGpio') === 0) return [];
  const path = feedPath(graph, view);
  return [...graph.views.values()].flatMap((timer) => {
    const holdS = path.has(timer.part.id) ? holdOver(graph, timer, stopS(view.s)) : null;
    if (!holdS) return [];
    return [
      {
        id: `${view.part.id}:spare:${timer.part.id}`,
        label: `Seconds in hand, ${called(timer)} over the stop of ${called(view)}`,
        unit: 's',
        limit: 0,
        bad: 'below' as const,
        value: (sample: Sample) => holdS(1 + timerTol(timer) * (2 * sample.free(`${timer.part.id}:hold`) - 1)),
      },
    ];
  });
}

function timerTol(timer: PartView): number {
  return timer.s.num(timer.kind.kind === 'hold-latch' ? 'timeTol' : 'holdTol');
}

/** Seconds that a timer holds beyond a stop, by the pace of its clock (1 = as set); null for a part that is no timer. */
function holdOver(graph: Graph, timer: PartView, stop: number): ((pace: number) => number) | null {
  const { s } = timer;
  if (timer.kind.kind === 'delay-off-relay') return (pace) => pace * s.num('holdS') - stop;
  if (timer.kind.kind !== 'hold-latch') return null;
  const isHeld = graph.wires.some((w) => [w.from, w.to].some((end) => end.part === timer.part.id && end.terminal === 'hold'));
  const releaseS = s.num('releaseS');
  // Held by the computer it opens so long after the stop, unless its backstop comes first.
  if (!isHeld) return (pace) => pace * releaseS - stop;
  const backstopS = s.num('backstopS') > 0 ? s.num('backstopS') : Number.POSITIVE_INFINITY;
  return (pace) => Math.min(pace * releaseS, pace * backstopS - stop);
}

/** The whole vehicle asleep, against what workshops accept. */
function parkedRow({ graph, solver }: TimeBase): SpreadRow {
  const supplyV = solver.maker.supply(PARKED.state, PARKED.band);
  return {
    id: ':parked',
    label: 'Parked draw with the vehicle’s own',
    unit: 'A',
    limit: PARKED_LIMIT_A,
    bad: 'above',
    value: (sample) => {
      const { elements, settled } = sample.at(PARKED);
      return graph.plan.vehicle.parkedA + parkedReport(graph, partWatts(solver.network, elements, settled), supplyV).buildA;
    },
  };
}

function across(view: PartView, plus: string, minus: string, moment: SpreadMoment): SpreadRow['value'] {
  const a = nodeName(view, plus);
  const b = nodeName(view, minus);
  return (sample) => sample.volts(moment, a) - sample.volts(moment, b);
}
