import type { Band } from '../../plan/types.ts';
import { BANDS } from '../readings.ts';
import type { TimeBase } from './base.ts';
import { retentionS } from './keySpans.ts';
import { stopMargin } from './margin.ts';
import { runCycle } from './run.ts';
import { defaultScenario } from './scenario.ts';
import type { Scenario, WorstMargin } from './types.ts';

/** Room after the vehicle has let go by itself, s. */
const AFTER_S = 60;
const DOORS = ['at once', 'never'] as const;

/**
 * Seconds in hand of every computer at their worst: three bands, the door opened at once or never. Yields the share done
 * after each of the six runs. `spareS` and what belongs to it are of the worst run, named by `band` and `door`;
 * `brownOuts` are those of the run that has most, `leastCrankV` the least of all runs.
 */
export function* margins(base: TimeBase): Generator<number, WorstMargin[]> {
  const { graph } = base;
  const computers = [...graph.views.values()].filter((v) => v.kind.kind === 'computer');
  const worst = new Map<string, WorstMargin>();
  let done = 0;
  for (const band of BANDS) {
    for (const door of DOORS) {
      const run = runCycle(base, scenarioOf(base, band, door));
      for (const view of computers) {
        const margin = { ...stopMargin(run, graph, view), band, door };
        const before = worst.get(view.part.id);
        worst.set(view.part.id, before ? worseOf(before, margin) : margin);
      }
      done++;
      yield done / (BANDS.length * DOORS.length);
    }
  }
  return [...worst.values()];
}

/** The same, all at once. */
export function worstMargins(base: TimeBase): WorstMargin[] {
  const runs = margins(base);
  for (;;) {
    const step = runs.next();
    if (step.done) return step.value;
  }
}

function scenarioOf({ graph }: TimeBase, band: Band, door: WorstMargin['door']): Scenario {
  const s = defaultScenario(graph.plan);
  const retains = [...graph.views.values()].some((v) => v.facts.tap?.line === '75r');
  if (door === 'at once') return { ...s, band, doorS: s.keyOffS };
  return { ...s, band, doorS: null, untilS: s.untilS + (retains ? retentionS(graph.views.values()) + AFTER_S : 0) };
}

function worseOf(a: WorstMargin, b: WorstMargin): WorstMargin {
  const size = (m: WorstMargin): number => m.spareS ?? Number.POSITIVE_INFINITY;
  // Equal runs differ by rounding: the first of them is named.
  const worse = size(b) < size(a) - 1e-3 ? b : a;
  return {
    ...worse,
    brownOuts: b.brownOuts.length > a.brownOuts.length ? b.brownOuts : a.brownOuts,
    leastCrankV: a.leastCrankV === null ? b.leastCrankV : b.leastCrankV === null ? a.leastCrankV : Math.min(a.leastCrankV, b.leastCrankV),
  };
}
