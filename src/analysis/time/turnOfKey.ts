import type { Id } from '../../plan/types.ts';
import type { Curve } from '../../trade/curves.ts';
import type { PartView } from '../factsTypes.ts';
import type { TimeBase } from './base.ts';
import { type Phase, TimedPlan } from './timedPlan.ts';
import type { KeySpan, Scenario } from './types.ts';

/** One turn of the key as a network in time. */
export function turnOfKey(base: TimeBase, scenario: Scenario, spans: readonly KeySpan[], supply: Curve): TimedPlan {
  const { solver, graph } = base;
  const at = solver.network.elementIndex;
  const ends = retentionEnds(graph.views.values(), scenario.keyOffS);
  const cuts = [...spans.map((s) => s.fromS), ...scenario.presses.flatMap((p) => [p.atS, p.atS + p.forS]), ...ends.map((e) => e.tS)];
  const phases = [...new Set(cuts)]
    .filter((tS) => tS >= 0 && tS < scenario.untilS)
    .sort((a, b) => a - b)
    .map((fromS): Phase => {
      const span = spans.findLast((s) => s.fromS <= fromS)!;
      const pressed = new Set(scenario.presses.filter((p) => p.atS <= fromS && fromS < p.atS + p.forS).map((p) => p.part));
      return {
        fromS,
        instant: solver.maker.at({ state: span.state, band: scenario.band, ...(pressed.size > 0 ? { pressed } : {}) }),
        open: span.state === 'RETAIN' ? ends.filter((e) => e.tS <= fromS).map((e) => at.get(`${e.part}:feed`)!) : [],
      };
    });
  return new TimedPlan(base, { band: scenario.band, phases, supply });
}

/** When each retained feed lets go by itself, s. */
function retentionEnds(views: Iterable<PartView>, keyOffS: number): { readonly part: Id; readonly tS: number }[] {
  return [...views].flatMap((v) => (v.facts.tap?.line === '75r' ? [{ part: v.part.id, tS: keyOffS + v.s.num('retainS') }] : []));
}
