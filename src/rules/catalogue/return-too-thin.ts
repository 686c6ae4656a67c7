import type { Facts } from '../../analysis/factsTypes.ts';
import type { WireReport } from '../../analysis/types.ts';
import { ampsApart, called, defineRule, part, verdicts, wire, wireName } from '../defineRule.ts';
import { thickEnough, thicken } from '../fixes.ts';
import type { Verdict } from '../types.ts';
import { wireReports } from '../wireEnds.ts';

const { fine, found } = verdicts('return-too-thin', 'B4');

export const returnTooThin = defineRule({
  id: 'return-too-thin',
  code: 'B4',
  level: 'hazard',
  title: 'Ground wire thinner than what it must bring back',
  why: 'What goes out through a fuse comes back through the ground wire, in a fault up to the fuse’s rating and for ever. Several feeds that share one thin ground wire turn it into the weakest piece of the build, and no fuse watches it.',
  source: { text: 'Planning limits below ISO 10133 and ABYC E-11; a return must carry what the fuses of all it serves let pass', grade: "fitters' habit" },
  needs: 'readings',
  always: true,
  check: (facts) => wireReports(facts).flatMap((w) => judge(facts, w)),
  repair: (finding, facts) => {
    const w = facts.analysis.wires[finding.subject.id];
    return w ? [thicken(new Map([[w.id, thickEnough(facts, w.id, backA(w))]]), true)] : [];
  },
});

function backA(w: WireReport): number {
  return Math.max(w.protection.from.maxA, w.protection.to.maxA);
}

function judge(facts: Facts, w: WireReport): Verdict[] {
  const amp = backA(w);
  // With no fuse at all on the way out the return is not what is wrong.
  if (w.role !== 'ground' || facts.plan.wires[w.id]?.owner !== 'build' || amp === 0 || !Number.isFinite(amp)) return [];
  const subject = wire(w.id);
  if (w.isProtected) return [fine(subject)];
  const end = w.protection.from.maxA >= w.protection.to.maxA ? w.protection.from : w.protection.to;
  const [may, back] = ampsApart(w.limitA, amp);
  const guard = end.byPart === null ? undefined : facts.parts.get(end.byPart);
  return [
    found({
      level: 'hazard',
      subject,
      related: guard ? [part(guard.part.id)] : [],
      what: `${wireName(facts, w.id)} (${w.areaMm2} mm² at ${w.zoneC} °C) may carry ${may} and must bring back what ${guard ? called(guard) : 'its feeds'} ${guard?.kind.kind === 'blade-fuse' ? 'lets pass' : 'can push'}, ${back}.`,
      todo: 'Fit a thicker ground wire, or give each feed a ground wire of its own.',
      figures: [
        { label: 'must bring back', value: amp, unit: 'A' },
        { label: 'planning limit', value: w.limitA, unit: 'A' },
      ],
    }),
  ];
}
