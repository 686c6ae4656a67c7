import type { Trace, TransientEvent, Watch } from '../../circuit/time/index.ts';
import { transient } from '../../circuit/time/index.ts';
import type { Id } from '../../plan/types.ts';
import type { PartView } from '../factsTypes.ts';
import { nodeName } from '../graph.ts';
import { walk } from '../readings.ts';
import { type TimeBase, untouched } from './base.ts';
import { keySpans, retentionS } from './keySpans.ts';
import { tidyScenario } from './scenario.ts';
import { supplyCurve } from './supply.ts';
import { turnOfKey } from './turnOfKey.ts';
import type { KeySpan, Scenario } from './types.ts';

/** A run of more steps swings for ever; an hour of a plan of hundreds of parts takes a tenth of them. */
export const MOST_STEPS = 40_000;

/** Volts between two nodes that a run records. */
export interface Pair {
  readonly id: 'battery' | 'input' | 'five';
  readonly part: Id | null;
  readonly plus: string;
  readonly minus: string;
}

/** One turn of the key as the engine followed it. */
export interface Run {
  readonly scenario: Scenario;
  readonly key: readonly KeySpan[];
  readonly pairs: readonly Pair[];
  readonly tS: Float64Array;
  /** Volts of each pair. */
  readonly volts: readonly Float64Array[];
  /** What the battery gives, A. */
  readonly batteryA: Float64Array;
  /** Switching of the parts' devices, in order. */
  readonly events: readonly TransientEvent[];
  /** States of the devices at the start. */
  readonly states0: ReadonlyMap<string, boolean>;
  readonly outcome: Trace['outcome'];
  readonly stuck: Trace['stuck'];
  readonly accepted: number;
  readonly rejected: number;
}

/**
 * Follows a plan through one turn of the key, from the end of its canonical walk.
 * @param onProgress share done; returning true stops the run
 */
export function runCycle(of: TimeBase, wanted: Scenario, onProgress?: (share: number) => boolean): Run {
  const base = untouched(of);
  const { solver, graph } = base;
  const scenario = tidyScenario(graph.plan, wanted);
  const key = keySpans(graph.plan, scenario, retentionS(graph.views.values()));
  const supply = supplyCurve(graph.plan, key, scenario.band, (state) => solver.maker.supply(state, scenario.band));
  const timed = turnOfKey(base, scenario, key, supply);
  const pairs = pairsOf(base);
  const nodes = [...new Set(pairs.flatMap((p) => [p.plus, p.minus]))].filter((n) => n !== '0');
  const watch: Watch = { nodes, elements: [{ id: base.batteryId }] };
  const states = walk(solver, scenario.band).statesAt.get('OFF_ASLEEP')!;
  const trace = transient(solver.network, timed, { untilS: scenario.untilS, states, watch, mostSteps: MOST_STEPS, ...(onProgress ? { onProgress } : {}) });
  const voltsAt = (node: string): Float64Array | undefined => trace.volts[nodes.indexOf(node)];
  return {
    scenario,
    key,
    pairs,
    tS: trace.tS,
    volts: pairs.map((p) => {
      const plus = voltsAt(p.plus);
      const minus = voltsAt(p.minus);
      return trace.tS.map((_, k) => (plus?.[k] ?? 0) - (minus?.[k] ?? 0));
    }),
    batteryA: trace.amps[0]!,
    events: trace.events,
    states0: states,
    outcome: trace.outcome,
    stuck: trace.stuck,
    accepted: trace.accepted,
    rejected: trace.rejected,
  };
}

/** Places whose volts a run records: battery posts, converter inputs, computers. */
export function pairsOf({ graph, solver }: TimeBase): Pair[] {
  const across = (id: Pair['id'], view: PartView, plus: string, minus: string): Pair => ({
    id,
    part: view.part.id,
    plus: nodeName(view, plus),
    minus: nodeName(view, minus),
  });
  const pairs: Pair[] = [{ id: 'battery', part: null, plus: 'battery', minus: '0' }];
  for (const view of graph.views.values()) {
    const load = view.facts.loads?.[0];
    if (!load) continue;
    if (view.facts.sources?.some((s) => s.kind === 'converter')) pairs.push(across('input', view, load.plus, load.minus));
    else if (view.kind.kind === 'computer') pairs.push(across('five', view, load.plus, load.minus));
  }
  const isThere = (node: string): boolean => node === '0' || solver.network.nodeIndex.has(node);
  return pairs.filter((p) => isThere(p.plus) && isThere(p.minus));
}
