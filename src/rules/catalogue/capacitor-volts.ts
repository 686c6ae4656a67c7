import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { settingsOf } from '../../parts/definePart.ts';
import { called, defineRule, part, verdicts, volts } from '../defineRule.ts';
import { answerClamping, typing } from '../fixes.ts';
import { clampingNote, dumpV, unclampedTodo, vehicleRail } from '../rails.ts';

const { fine, found } = verdicts('capacitor-volts', 'C7');
/** Rated volts over what arrives: 80 % use is good practice (common practice, no source). */
const MARGIN = 1.25;
/** A surge above this is not met by a capacitor's rating but by a guard ahead of it, V (common practice, no source). */
const MOST_SURGE_V = 160;
/** Ratings that capacitors are made in, V (makers' catalogues, from memory). */
const RATINGS_V = [6.3, 10, 16, 25, 35, 50, 63, 80, 100, 160, 200, 250, 400];

export const capacitorVolts = defineRule({
  id: 'capacitor-volts',
  code: 'C7',
  level: 'hazard',
  title: 'Capacitor’s voltage rating too low',
  why: 'An electrolytic above its voltage heats, swells and bursts, or fails as a short. What counts is the surge that reaches it, not the 12 V on the label.',
  source: { text: 'ISO 16750-2 load dump (read); 80 % use: common practice', grade: 'standard' },
  needs: 'readings',
  always: true,
  check: (facts) =>
    facts.ofKind('capacitor').flatMap((view) => {
      const seen = seenBy(facts, view);
      if (seen === null) return [];
      const subject = part(view.part.id);
      const ratedV = view.s.num('ratedV');
      if (ratedV >= MARGIN * seen.v) return [fine(subject)];
      const what = seen.surge
        ? `a load dump brings ${volts(seen.v)} to it${seen.v < dumpV(facts) ? ', held by the clamp' : clampingNote(facts)}`
        : `it sees ${volts(seen.v)}`;
      return [
        found({
          level: ratedV < seen.v ? 'hazard' : 'advice',
          subject,
          what: `${called(view)} is rated ${volts(ratedV)} and ${what}${ratedV < seen.v ? '' : '; a quarter should be kept in hand'}.`,
          todo:
            (seen.surge && seen.v >= dumpV(facts) ? unclampedTodo(facts) : null) ?? `Fit one of ${fitting(seen.v) ?? Math.ceil(MARGIN * seen.v)} V or more.`,
          figures: [
            { label: 'rated', value: ratedV, unit: 'V' },
            { label: 'most that reaches it', value: seen.v, unit: 'V' },
          ],
        }),
      ];
    }),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    const seen = view && seenBy(facts, view);
    if (!view || !seen) return [];
    const rating = seen.v > MOST_SURGE_V ? null : notStore(view, fitting(seen.v));
    const answered = seen.surge && view.s.num('ratedV') >= MARGIN * facts.corners.dumpClampedV ? answerClamping(facts) : [];
    return rating === null ? answered : [...answered, typing(view.part.id, { ratedV: rating }, `Fit a ${rating} V capacitor`, true)];
  },
});

/** A rating so high that the part would count as an energy store with a fuse of its own is no repair. */
function notStore(view: PartView, rating: number | null): number | null {
  const typed = view.kind.facts(settingsOf(view.kind, { ...view.part.settings, ratedV: rating ?? 0 }));
  return (typed.sources?.length ?? 0) > (view.facts.sources?.length ?? 0) ? null : rating;
}

function fitting(v: number): number | null {
  return RATINGS_V.find((r) => r >= MARGIN * v) ?? null;
}

/** The most that comes across a capacitor, V: the surge on the vehicle's rail, else the highest reading; null when it is not joined. */
function seenBy(facts: Facts, view: PartView): { readonly v: number; readonly surge: boolean } | null {
  const [plus, minus] = [`${view.part.id}.+`, `${view.part.id}.-`];
  if (!facts.isWired(plus) || !facts.isWired(minus)) return null;
  const rail = vehicleRail(facts);
  const hot = rail.has(plus) ? plus : rail.has(minus) ? minus : null;
  if (hot && facts.isGround(facts.netOf(hot === plus ? minus : plus))) return { v: facts.seenSurgeV(hot), surge: true };
  const volts = facts.solved.map((r) => facts.across(plus, minus, r.state, r.band)).filter((v): v is number => v !== null);
  return volts.length === 0 ? null : { v: Math.max(...volts.map(Math.abs)), surge: false };
}
