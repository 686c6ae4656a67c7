import type { Id, Plan } from '../plan/types.ts';
import type { Analysis, EndProtection } from './types.ts';

/**
 * What bounds a short behind a fuse to which no lead of the vehicle and no store leads: the converter ahead of it, with the
 * current that it can keep up.
 * @returns null where the vehicle or a store drives the short (`leastShortA` tells it then), or nothing does
 */
export function limitAhead(plan: Plan, analysis: Analysis, fuse: Id): EndProtection | null {
  const report = analysis.fuses[fuse];
  if (!report || Number.isFinite(report.leastShortA)) return null;
  const ends = Object.values(plan.wires)
    .filter((w) => w.from.part === fuse || w.to.part === fuse)
    .flatMap((w) => {
      const protection = analysis.wires[w.id]?.protection;
      return protection ? [protection.from, protection.to] : [];
    })
    .filter((end) => end.byPart !== null && end.byPart !== fuse && end.maxA > 0 && Number.isFinite(end.maxA));
  return ends.reduce<EndProtection | null>((most, end) => (most && most.maxA >= end.maxA ? most : end), null);
}
