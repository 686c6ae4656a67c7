import type { Facts } from '../../analysis/factsTypes.ts';
import { called, defineRule, part, verdicts, volts } from '../defineRule.ts';
import { answerClamping, swapConverter } from '../fixes.ts';
import { type Converter, clampingNote, converters, cornersOf, dumpV, unclampedTodo, vehicleRail } from '../rails.ts';

const { fine, found } = verdicts('converter-not-rugged', 'C2');

export const converterNotRugged = defineRule({
  id: 'converter-not-rugged',
  code: 'C2',
  level: 'hazard',
  title: 'Converter cannot stand the supply’s worst moments',
  why: 'The supply of a vehicle is 12 or 24 V only most of the time. A module sold for “24 V” dies in a jump start or a load dump, and may put the full supply on the computer as it goes.',
  source: { text: 'ISO 16750-2: jump start, long over-voltage, load dump (read and from memory)', grade: 'standard' },
  needs: 'graph',
  always: true,
  explains: ['surge-not-stopped'],
  check: (facts) => {
    const rail = vehicleRail(facts);
    return converters(facts)
      .filter((c) => rail.has(c.inKey) && c.load.absMaxV !== null)
      .map((c) => {
        const subject = part(c.view.part.id);
        const worst = worstMoment(facts, c);
        const absMaxV = c.load.absMaxV!;
        if (absMaxV >= worst.v) return fine(subject);
        return found({
          level: 'hazard',
          subject,
          what: `${called(c.view)} stands ${volts(absMaxV)} for a moment, but ${worst.what} brings ${volts(worst.v)}${worst.dump ? clampingNote(facts) : ''}.`,
          todo: (worst.dump ? unclampedTodo(facts) : null) ?? 'Fit a converter of the 60 V class or better.',
          figures: [
            { label: 'converter stands', value: absMaxV, unit: 'V' },
            { label: 'worst moment', value: worst.v, unit: 'V' },
          ],
        });
      });
  },
  repair: (finding, facts) => {
    const c = converters(facts).find((x) => x.view.part.id === finding.subject.id);
    if (!c) return [];
    const worst = worstMoment(facts, c);
    const answered = worst.dump && (c.load.absMaxV ?? 0) >= Math.max(facts.corners.dumpClampedV, facts.corners.jumpV) ? answerClamping(facts) : [];
    return [...answered, ...swapConverter(facts, c, (x) => x.absMaxV >= worst.v && 0.9 * x.absMaxV >= facts.seenSurgeV(c.inKey))];
  },
});

/** The highest the supply comes to at a converter's input, and in what event. */
function worstMoment(facts: Facts, c: Converter): { readonly v: number; readonly what: string; readonly dump: boolean } {
  const corners = cornersOf(facts);
  const seenV = facts.seenSurgeV(c.inKey);
  const held = seenV < dumpV(facts) ? 'a load dump, held by the clamp,' : 'a load dump';
  return [
    { v: corners.hiV, what: 'the alternator’s upper limit', dump: false },
    { v: corners.longV, what: 'an hour with a failed regulator', dump: false },
    { v: corners.jumpV, what: 'a jump start from a higher battery', dump: false },
    { v: seenV, what: held, dump: held === 'a load dump' },
  ].reduce((a, b) => (b.v > a.v ? b : a));
}
