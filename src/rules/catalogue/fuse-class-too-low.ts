import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { BOLTED, GLASS_BREAKS } from '../../trade/fitting.ts';
import { BREAKING_A, coldOhm } from '../../trade/fuses.ts';
import { amps, called, defineRule, part, plain, verdicts, volts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { clampingNote, dumpV, vehicleRail } from '../rails.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('fuse-class-too-low', 'A6');
/** The class of blade fuses above the usual one, V (ISO 8820-3 abstract, read). */
const HIGH_CLASS = '58';

export const fuseClassTooLow = defineRule({
  id: 'fuse-class-too-low',
  code: 'A6',
  level: 'hazard',
  title: 'Fuse cannot break what stands behind it',
  why: 'When a fuse melts, an arc burns in the gap. Above the volts or amps that the fuse is made for, the arc does not go out: the fuse body bursts or burns, and the current goes on.',
  source: {
    text: 'ISO 8820-3 abstract (read): blade fuses of 32 V and 58 V, breaking 1000 A; glass fuses by IEC 60127-2 (from memory); supply of ISO 16750-2 (read)',
    grade: 'standard',
  },
  needs: 'readings',
  always: true,
  check: (facts) => facts.ofKind('blade-fuse').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    return view ? mend(facts, view) : [];
  },
});

/** Rated volts; null where none are printed for direct current. */
function ratedV(view: PartView): number | null {
  const printed = view.s.str('voltClass');
  return printed === 'none' ? null : Number(printed);
}

/** What it breaks at the most, A. One with nothing printed for direct current is taken for a glass fuse until somebody types more. */
function breaksA(view: PartView): number {
  if (ratedV(view) !== null || view.s.typed('breakA')) return view.s.num('breakA');
  return Math.max(GLASS_BREAKS.leastA, GLASS_BREAKS.times * view.s.num('ratingA'));
}

/** Does it stand in the vehicle's own volts? Behind a converter every class does. */
function onVehicle(facts: Facts, view: PartView): boolean {
  return ['1', '2'].some((t) => vehicleRail(facts).has(`${view.part.id}.${t}`));
}

/** Does it hang on the middle of a pair alone? There it sees one battery. */
function onMiddle(facts: Facts, view: PartView): boolean {
  const feeds = facts.sourcesFor(`${view.part.id}.1`);
  return feeds.length > 0 && feeds.every((s) => s.source.half !== undefined);
}

/** Greatest current that it must break, A: battery, wires, and its own resistance, which is most of it in a small fuse. */
function shortA(facts: Facts, view: PartView): number {
  const bareA = facts.analysis.fuses[view.part.id]?.greatestShortA ?? 0;
  return bareA === 0 ? 0 : facts.corners.restV / (facts.corners.restV / bareA + coldOhm(view.s.num('ratingA')));
}

function judge(facts: Facts, view: PartView): Verdict[] {
  const vehicle = onVehicle(facts, view);
  const amp = shortA(facts, view);
  if (!vehicle && amp === 0) return [];
  const subject = part(view.part.id);
  const breakA = breaksA(view);
  if (amp > breakA) {
    const glass = ratedV(view) === null;
    return [
      found({
        level: 'hazard',
        subject,
        what: glass
          ? `A short behind ${called(view)} can draw ${amps(amp)}; with nothing printed on it for direct current it is sure to break ${amps(breakA)}, as glass fuses are.`
          : `A short behind ${called(view)} can draw ${amps(amp)} so near to the battery, and it breaks ${amps(breakA)} at the most.`,
        todo: glass
          ? 'Fit a blade fuse, whose class is printed for direct current.'
          : 'Fit a fuse that breaks more: a bolt-down fuse at the post, and a blade fuse half a metre of wire later.',
        figures: [
          { label: 'greatest short-circuit current', value: amp, unit: 'A' },
          { label: 'breaks', value: breakA, unit: 'A' },
        ],
      }),
    ];
  }
  if (!vehicle) return [fine(subject)];
  return [judgeVolts(facts, view)];
}

function judgeVolts(facts: Facts, view: PartView): Verdict {
  const subject = part(view.part.id);
  const rated = ratedV(view);
  const share = onMiddle(facts, view) ? 0.5 : 1;
  const [hiV, surgeV] = [share * facts.corners.hiV, share * dumpV(facts)];
  if (rated === null) {
    return found({
      level: 'advice',
      subject,
      what: `${called(view)} has no rating printed for direct current; one for alternating current says nothing, for mains goes through zero by itself.`,
      todo: 'Fit a fuse with a class printed for direct current.',
    });
  }
  const figures = [
    { label: 'class', value: rated, unit: 'V' },
    { label: 'highest supply', value: hiV, unit: 'V' },
  ];
  if (rated < hiV) {
    return found({
      level: 'hazard',
      subject,
      what: `${called(view)} is made for ${volts(rated)}, and the supply stands at up to ${volts(hiV)} for ever.`,
      todo: `Fit the ${plain(Number(bestClass(facts)))} V class.`,
      figures,
    });
  }
  // In a 12 V vehicle the usual class is the only one that is common, and has twice the supply in hand. No class reaches a dump
  // that nothing clamps; it is over in a third of a second, and the highest class is what can be done.
  const high = Number(HIGH_CLASS);
  if (facts.plan.vehicle.systemV === 24 && rated < Math.min(surgeV, high)) {
    return found({
      level: 'advice',
      subject,
      what: `${called(view)} is of the ${volts(rated)} class; should it open in a load dump, it has ${volts(surgeV)} across it${clampingNote(facts)}.`,
      todo: `Fit the ${HIGH_CLASS} V class of the same rating${surgeV > high ? ', the highest that blade fuses are made in' : ''}.`,
      figures: [
        { label: 'class', value: rated, unit: 'V' },
        { label: 'load dump', value: surgeV, unit: 'V' },
      ],
    });
  }
  return fine(subject);
}

function bestClass(facts: Facts): string {
  return facts.plan.vehicle.systemV === 24 ? HIGH_CLASS : '32';
}

function mend(facts: Facts, view: PartView): Repair[] {
  const id = view.part.id;
  const best = bestClass(facts);
  const amp = shortA(facts, view);
  if (amp > breaksA(view)) {
    const printed = ratedV(view) === null ? { voltClass: best } : {};
    if (amp <= BREAKING_A) return [typing(id, { breakA: undefined, ...printed }, `Fit a blade fuse, which breaks ${BREAKING_A} A`, true)];
    return view.s.num('ratingA') >= BOLTED.fromA && amp <= BOLTED.breakA
      ? [typing(id, { breakA: BOLTED.breakA, ...printed }, `Fit a bolt-down fuse, which breaks ${BOLTED.breakA} A`, false)]
      : [];
  }
  return [typing(id, { voltClass: best }, `Fit the ${best} V class`, true)];
}
