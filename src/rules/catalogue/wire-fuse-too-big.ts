import { smallestFuseA } from '../../analysis/choose.ts';
import type { Facts } from '../../analysis/factsTypes.ts';
import type { WireReport } from '../../analysis/types.ts';
import { BLADE_RATINGS_A } from '../../trade/fuses.ts';
import { ampsApart, called, defineRule, part, verdicts, wire, wireName } from '../defineRule.ts';
import { thickEnough, thicken, typing } from '../fixes.ts';
import { standsFilling } from '../switchOnSurge.ts';
import type { Repair } from '../types.ts';
import { wireReports } from '../wireEnds.ts';

const { fine, found } = verdicts('wire-fuse-too-big', 'A3');

/** The wires that one fuse or limited source must protect. */
interface Guarded {
  readonly guard: string;
  readonly maxA: number;
  readonly wires: readonly WireReport[];
  readonly weak: readonly WireReport[];
}

export const wireFuseTooBig = defineRule({
  id: 'wire-fuse-too-big',
  code: 'A3',
  level: 'hazard',
  title: 'Fuse bigger than the wire behind it',
  why: 'A fuse protects the wire behind it, nothing else. If it passes more than the wire may carry, the wire becomes the fuse, inside your dash.',
  source: {
    text: 'Planning limits below ISO 10133 and ABYC E-11; fuse not above the limit, in force of 33 CFR 183.455 (150 %) the stricter habit',
    grade: "fitters' habit",
  },
  needs: 'readings',
  always: true,
  explains: ['short-would-not-blow', 'return-too-thin'],
  check: (facts) =>
    guarded(facts).map((g) => {
      const subject = part(g.guard);
      const worst = [...g.weak].sort((a, b) => a.limitA - b.limitA)[0];
      if (!worst) return fine(subject);
      const view = facts.parts.get(g.guard)!;
      const isFuse = view.kind.kind === 'blade-fuse';
      const [passes, may] = ampsApart(g.maxA, worst.limitA);
      const more = g.weak.length === 1 ? '' : `; ${g.weak.length - 1} more ${g.weak.length === 2 ? 'wire is' : 'wires are'} too thin as well`;
      return found({
        level: 'hazard',
        subject,
        related: g.weak.map((w) => wire(w.id)),
        what: `${isFuse ? `${called(view)} lets ${passes} pass for ever` : `${called(view)} can push ${passes} for ever`}, but ${wireName(facts, worst.id)} (${worst.areaMm2} mm² at ${worst.zoneC} °C) may carry ${may}${more}.`,
        todo: isFuse ? 'Fit a smaller fuse if the load allows it, or a thicker wire.' : 'Fit a thicker wire, or a fuse at its start.',
        figures: [
          { label: 'can persist', value: g.maxA, unit: 'A' },
          { label: 'planning limit', value: worst.limitA, unit: 'A' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const g = guarded(facts).find((x) => x.guard === finding.subject.id);
    if (!g || g.weak.length === 0) return [];
    const fuse = facts.analysis.fuses[g.guard];
    const view = facts.parts.get(g.guard);
    // The smallest that holds: it guards best, and the wires stay as they are.
    const least = fuse && view ? smallestFuseA(fuse.heatA, view.runningMaxC) : null;
    const holds = view && least !== null ? (BLADE_RATINGS_A.find((a) => a >= least && standsFilling(facts, view, a)) ?? null) : null;
    const repairs: Repair[] = [];
    if (fuse && holds !== null && holds < fuse.ratingA && holds <= Math.min(...g.wires.map((w) => w.limitA)) && g.maxA <= fuse.ratingA * (1 + 1e-9)) {
      repairs.push(typing(g.guard, { ratingA: holds }, `Fit a ${holds} A fuse`, true));
    }
    const makings = new Map(g.weak.map((w) => [w.id, thickEnough(facts, w.id, Math.max(w.protection.from.maxA, w.protection.to.maxA))]));
    repairs.push(thicken(makings, repairs.length === 0));
    return repairs;
  },
});

/** Wires grouped by what bounds the current that can persist in them; unfused ones are another rule's. */
function guarded(facts: Facts): Guarded[] {
  const groups = new Map<string, { maxA: number; wires: WireReport[]; weak: WireReport[] }>();
  for (const w of wireReports(facts)) {
    // What brings the current back is another rule's.
    if (facts.plan.wires[w.id]?.owner !== 'build' || w.role === 'ground') continue;
    const end = w.protection.from.maxA >= w.protection.to.maxA ? w.protection.from : w.protection.to;
    if (!Number.isFinite(end.maxA) || end.byPart === null) continue;
    const group = groups.get(end.byPart) ?? { maxA: 0, wires: [], weak: [] };
    group.maxA = Math.max(group.maxA, end.maxA);
    group.wires.push(w);
    if (!w.isProtected) group.weak.push(w);
    groups.set(end.byPart, group);
  }
  return [...groups].map(([guard, g]) => ({ guard, ...g }));
}
