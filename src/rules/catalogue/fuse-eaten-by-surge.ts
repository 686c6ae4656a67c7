import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { BLADE_RATINGS_A, meltI2t, SURGE_SHARE } from '../../trade/fuses.ts';
import { nearestPreferred } from '../../trade/preferred.ts';
import { called, defineRule, part, plain, two, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { type Filling, fillings, mayUse, standsFilling } from '../switchOnSurge.ts';
import { change } from '../taps.ts';
import type { Repair, Verdict } from '../types.ts';
import { guardedBy } from '../wireEnds.ts';

const { fine, found } = verdicts('fuse-eaten-by-surge', 'A5');

export const fuseEatenBySurge = defineRule({
  id: 'fuse-eaten-by-surge',
  code: 'A5',
  level: 'fault',
  title: 'Switch-on surge eats the fuse',
  why: 'Each time an empty capacitor fills, the fuse’s wire is heated hard for a millisecond. Every surge ages it a little, until it opens one day with nothing wrong behind it.',
  source: { text: 'A fuse maker’s pulse table (read): 22 % of the melting integral for 100 000 surges; melting integrals from memory', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) => fillings(facts).map(judge),
  repair: (finding, facts) => {
    const f = fillings(facts).find((x) => x.fuse.part.id === finding.subject.id);
    return f ? [...larger(facts, f), ...smaller(facts, f)] : [];
  },
});

function judge(f: Filling): Verdict {
  const subject = part(f.fuse.part.id);
  const ratingA = f.fuse.s.num('ratingA');
  const allowed = mayUse(ratingA, f.often);
  if (f.i2t <= allowed) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: f.capacitors.map((c) => part(c.part.id)),
    what: f.often
      ? `At each switching on, ${plain(1e6 * f.farad)} µF fill through ${called(f.fuse)} over ${two(f.loopOhm)} Ω: ${two(f.i2t)} A²s. A ${plain(ratingA)} A fuse melts at some ${plain(meltI2t(ratingA))} A²s, and only ${plain(100 * SURGE_SHARE)} % of that, ${two(allowed)} A²s, may be used each time if it is to last.`
      : `When ${called(f.fuse)} is put in, ${plain(1e6 * f.farad)} µF fill through it over ${two(f.loopOhm)} Ω: ${two(f.i2t)} A²s, and a ${plain(ratingA)} A fuse melts at some ${two(allowed)} A²s.`,
    todo: 'Fit a larger fuse if the wires allow it, a smaller capacitor, or fill it over a resistor that a relay bridges afterwards.',
    figures: [
      { label: 'surge', value: f.i2t, unit: 'A²s' },
      { label: 'may use', value: allowed, unit: 'A²s' },
      { label: 'loop', value: f.loopOhm, unit: 'Ω' },
    ],
  });
}

/** The next fuse that stands it, where no wire that somebody chose is too thin for it. */
function larger(facts: Facts, f: Filling): Repair[] {
  const had = f.fuse.s.num('ratingA');
  const rating = BLADE_RATINGS_A.find((a) => a > had && standsFilling(facts, f.fuse, a));
  if (rating === undefined) return [];
  const title = `Fit a ${rating} A fuse`;
  const id = f.fuse.part.id;
  const guarded = guardedBy(facts, id);
  return [
    {
      title,
      safe: false,
      edit: (plan) => {
        const row = plan.parts[id];
        const thin = guarded.some((w) => w.limitA < rating && plan.wires[w.id]?.areaMm2 !== undefined);
        if (!row || thin) return null;
        return change(plan, 'fuse.rating', title, (draft) => draft.setPart({ ...row, settings: { ...row.settings, ratingA: rating } }));
      },
    },
  ];
}

function smaller(facts: Facts, f: Filling): Repair[] {
  const only: PartView | undefined = f.capacitors.length === 1 ? f.capacitors[0] : undefined;
  if (!only) return [];
  const most = (2 * f.loopOhm * mayUse(f.fuse.s.num('ratingA'), f.often)) / facts.corners.chargeV ** 2;
  const farad = nearestPreferred(most, 'E6', 'down');
  return [typing(only.part.id, { farad }, `Fit ${plain(1e6 * farad)} µF`, false)];
}
