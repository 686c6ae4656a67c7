import type { TimeBase } from './base.ts';
import { computerSpans } from './computers.ts';
import { stopMargin } from './margin.ts';
import { type Pair, type Run, runCycle } from './run.ts';
import { thinned } from './thin.ts';
import type { CycleEvent, CycleTrace, KeyCycle, Scenario } from './types.ts';
import { called, eventWords } from './words.ts';

export interface CycleOptions {
  /** Called while it runs with the share done; returning true stops it. */
  readonly onProgress?: (share: number) => boolean;
}

/**
 * One turn of the key in time: what the battery, the converters and the computers see, what switches when, and whether
 * each computer has stopped before its power goes. Starts from the end of the canonical walk; what the plan's own
 * devices do comes of their thresholds and delays alone.
 * @param base of the filled plan
 * @param scenario moments in s; put in order when they are not
 */
export function keyCycle(base: TimeBase, scenario: Scenario, options: CycleOptions = {}): KeyCycle {
  const run = runCycle(base, scenario, options.onProgress);
  const { graph } = base;
  const computers = [...graph.views.values()].filter((v) => v.kind.kind === 'computer');
  return {
    scenario: run.scenario,
    key: run.key,
    traces: run.pairs.map((p, k) => traceOf(base, run, p, k)),
    computers: computers.flatMap((v) => computerSpans(run, v.part.id)),
    events: eventsOf(base, run),
    margins: computers.map((v) => stopMargin(run, graph, v)),
    outcome: run.outcome,
    stuck: run.stuck && { tS: run.stuck.tS, where: whereOf(base, run.stuck.node), why: run.stuck.why },
    accepted: run.accepted,
    rejected: run.rejected,
    chargeAs: chargeAs(run),
  };
}

function traceOf({ graph }: TimeBase, run: Run, pair: Pair, k: number): CycleTrace {
  const view = pair.part === null ? undefined : graph.views.get(pair.part);
  const label = { battery: 'Battery', input: view ? `Into ${called(view)}` : '', five: view ? `5 V at ${called(view)}` : '' }[pair.id];
  return { id: pair.id, label, part: pair.part, ...thinned(run.tS, run.volts[k]!) };
}

/** What repeats sooner than this is told once, s: tries of an overloaded converter. */
const AGAIN_S = 10;

function eventsOf({ graph }: TimeBase, run: Run): CycleEvent[] {
  const toldS = new Map<string, number>();
  return run.events.flatMap(({ tS, device, on }) => {
    if (device.endsWith(':overload')) {
      const lastS = toldS.get(device) ?? Number.NEGATIVE_INFINITY;
      toldS.set(device, tS);
      if (tS - lastS < AGAIN_S) return [];
    }
    const part = device.slice(0, device.indexOf(':'));
    const view = graph.views.get(part);
    const label = view && eventWords(view, device.slice(part.length + 1), on);
    return label ? [{ tS, part, label }] : [];
  });
}

/** Charge that left the battery, As: straight lines between the steps. */
function chargeAs(run: Run): number {
  let sum = 0;
  for (let k = 1; k < run.tS.length; k++) sum += ((run.tS[k]! - run.tS[k - 1]!) * (run.batteryA[k]! + run.batteryA[k - 1]!)) / 2;
  return sum;
}

/** The part behind a node that has no solution, in words. */
export function whereOf({ graph }: Pick<TimeBase, 'graph'>, node: string): string {
  const view = graph.views.get(node.split(/[.~]/, 1)[0]!);
  return view ? called(view) : node;
}
