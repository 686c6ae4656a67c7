import { stopS } from '../../parts/computer/settings.ts';
import type { Band, VehicleState } from '../../plan/types.ts';
import { PARKED_LIMIT_A } from '../../trade/battery.ts';
import { ledMaxA } from '../../trade/optocouplers.ts';
import { OPTOS, type OptoType } from '../../trade/semiconductors.ts';
import type { PartView } from '../factsTypes.ts';
import { nodeName } from '../graph.ts';
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
  return [...graph.views.values()]
    .filter((v) => v.kind.kind === 'delay-off-relay' && path.has(v.part.id))
    .map((timer) => ({
      id: `${view.part.id}:spare:${timer.part.id}`,
      label: `Seconds in hand, ${called(timer)} over the stop of ${called(view)}`,
      unit: 's',
      limit: 0,
      bad: 'below',
      value: (sample) => timer.s.num('holdS') * (1 + timer.s.num('holdTol') * (2 * sample.free(`${timer.part.id}:hold`) - 1)) - stopS(view.s),
    }));
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
