import type { FuseGates, TimedFuse } from '../../circuit/time/index.ts';
import type { Band, Id } from '../../plan/types.ts';
import { GATES, meltI2t, tempFactor } from '../../trade/fuses.ts';
import type { PartView } from '../factsTypes.ts';

/** Id of a melted link among the devices. */
export function meltedId(part: Id): string {
  return `${part}:melted`;
}

/** The fuses that a run follows: the build's own, and donor fuses that were read at the vehicle, with what the vehicle draws through them. */
export function fusesOf(views: Iterable<PartView>, band: Band): TimedFuse[] {
  return [...views].flatMap((view) => {
    const id = meltedId(view.part.id);
    if (view.kind.kind === 'blade-fuse') return [{ id, element: `${view.part.id}:fuse`, gates: gatesOf(view, view.s.num('ratingA'), band) }];
    if (!view.facts.tap || !view.facts.sources?.some((s) => s.donorFuseRead)) return [];
    const gates = gatesOf(view, view.s.num('donorFuseA'), band);
    return [{ id, element: `${view.part.id}:feed`, gates, besideA: view.s.num('donorLoadA') }];
  });
}

/**
 * A blade fuse in time: at its quickest in the low band, its slowest in the high one, in the middle (of the logarithms)
 * between; what it carries falls with the heat around it.
 */
function gatesOf(view: PartView, ratingA: number, band: Band): FuseGates {
  const carriesA = ratingA * tempFactor(band === 'low' ? view.maxC : band === 'high' ? view.minC : 20);
  const opens = GATES.filter((g) => band === 'low' || g.maxS < Number.POSITIVE_INFINITY).map((g) => ({
    amp: g.ratio * carriesA,
    s: band === 'low' ? g.minS : band === 'high' ? g.maxS : Math.sqrt(g.minS * g.maxS),
  }));
  return { opens, meltA2s: Math.max(meltI2t(ratingA), opens.at(-1)!.s * opens.at(-1)!.amp ** 2) };
}
