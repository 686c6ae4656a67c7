import type { FuseGates, TimedFuse, TimedNetwork } from '../../circuit/time/index.ts';
import type { Device, Element, Source } from '../../circuit/types.ts';
import type { Band, Id } from '../../plan/types.ts';
import type { Curve } from '../../trade/curves.ts';
import { GATES, meltI2t, tempFactor } from '../../trade/fuses.ts';
import type { PartView } from '../factsTypes.ts';
import type { Instant } from '../network.ts';
import type { TimeBase } from './base.ts';
import type { KeySpan, Scenario } from './types.ts';

/** A stretch of time in which nothing but the supply changes by itself. */
interface Phase {
  readonly fromS: number;
  readonly instant: Instant;
  /** Elements that are open although their line is live: retained feeds whose own time is over. */
  readonly open: readonly number[];
}

/** One turn of the key as a network in time. */
export class TimedPlan implements TimedNetwork {
  readonly devices: readonly Device[];
  readonly breaks: readonly number[];
  readonly fuses: readonly TimedFuse[];
  private readonly phases: readonly Phase[];
  private readonly fuseAt: readonly { readonly id: string; readonly at: number }[];
  private phase = 0;
  private made: { readonly list: readonly Element[]; readonly phase: number; readonly volt: number; readonly blown: string; readonly out: Element[] } | null =
    null;

  constructor(
    private readonly base: TimeBase,
    scenario: Scenario,
    spans: readonly KeySpan[],
    private readonly supply: Curve,
  ) {
    const { solver, graph } = base;
    const at = solver.network.elementIndex;
    const ends = retentionEnds(graph.views.values(), scenario.keyOffS);
    const cuts = [...spans.map((s) => s.fromS), ...scenario.presses.flatMap((p) => [p.atS, p.atS + p.forS]), ...ends.map((e) => e.tS)];
    this.phases = [...new Set(cuts)]
      .filter((tS) => tS >= 0 && tS < scenario.untilS)
      .sort((a, b) => a - b)
      .map((fromS) => {
        const span = spans.findLast((s) => s.fromS <= fromS)!;
        const pressed = new Set(scenario.presses.filter((p) => p.atS <= fromS && fromS < p.atS + p.forS).map((p) => p.part));
        return {
          fromS,
          instant: solver.maker.at({ state: span.state, band: scenario.band, ...(pressed.size > 0 ? { pressed } : {}) }),
          open: span.state === 'RETAIN' ? ends.filter((e) => e.tS <= fromS).map((e) => at.get(`${e.part}:feed`)!) : [],
        };
      });
    this.devices = this.phases[0]!.instant.devices;
    this.breaks = [...new Set([...this.phases.map((p) => p.fromS), ...supply.corners])].filter((tS) => tS > 0).sort((a, b) => a - b);
    this.fuses = [...graph.views.values()].filter((v) => v.kind.kind === 'blade-fuse').map((v) => timedFuse(v, scenario.band));
    this.fuseAt = this.fuses.map(({ id, element }) => ({ id, at: at.get(element)! }));
  }

  elements(on: (deviceId: string) => boolean, tS: number): readonly Element[] {
    const { phases, fuseAt, made } = this;
    while (this.phase > 0 && phases[this.phase]!.fromS > tS) this.phase--;
    while (this.phase + 1 < phases.length && phases[this.phase + 1]!.fromS <= tS) this.phase++;
    const { instant, open } = phases[this.phase]!;
    const list = instant.elements(on);
    const volt = this.supply.volts(tS);
    let blown = '';
    for (const { id } of fuseAt) if (on(id)) blown += `${id},`;
    if (made && made.list === list && made.phase === this.phase && made.volt === volt && made.blown === blown) return made.out;
    const out = list.slice();
    const battery = out[this.base.batteryAt] as Source;
    out[this.base.batteryAt] = { ...battery, volt };
    for (const k of open) out[k] = opened(out[k]!);
    if (blown) for (const { id, at } of fuseAt) if (on(id)) out[at] = opened(out[at]!);
    this.made = { list, phase: this.phase, volt, blown, out };
    return out;
  }
}

function opened(e: Element): Element {
  return e.kind === 'resistor' && e.ohm !== Number.POSITIVE_INFINITY ? { ...e, ohm: Number.POSITIVE_INFINITY } : e;
}

/** When each retained feed lets go by itself, s. */
function retentionEnds(views: Iterable<PartView>, keyOffS: number): { readonly part: Id; readonly tS: number }[] {
  return [...views].flatMap((v) => (v.facts.tap?.line === '75r' ? [{ part: v.part.id, tS: keyOffS + v.s.num('retainS') }] : []));
}

/** Id of a melted link among the devices. */
export function meltedId(part: Id): string {
  return `${part}:melted`;
}

/**
 * A blade fuse in time: at its quickest in the low band, its slowest in the high one, in the middle (of the logarithms)
 * between; what it carries falls with the heat around it.
 */
function timedFuse(view: PartView, band: Band): TimedFuse {
  const ratingA = view.s.num('ratingA');
  const carriesA = ratingA * tempFactor(band === 'low' ? view.maxC : band === 'high' ? view.minC : 20);
  const opens = GATES.filter((g) => band === 'low' || g.maxS < Number.POSITIVE_INFINITY).map((g) => ({
    amp: g.ratio * carriesA,
    s: band === 'low' ? g.minS : band === 'high' ? g.maxS : Math.sqrt(g.minS * g.maxS),
  }));
  const gates: FuseGates = { opens, meltA2s: Math.max(meltI2t(ratingA), opens.at(-1)!.s * opens.at(-1)!.amp ** 2) };
  return { id: meltedId(view.part.id), element: `${view.part.id}:fuse`, gates };
}
