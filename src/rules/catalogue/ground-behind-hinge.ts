import { BEARING_A, groundPlace, STRAP_MM2 } from '../../trade/grounds.ts';
import { amps, called, defineRule, part, two, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { groundPoints } from '../groundPoints.ts';

const { fine, found } = verdicts('ground-behind-hinge', 'H10');

export const groundBehindHinge = defineRule({
  id: 'ground-behind-hinge',
  code: 'H10',
  level: 'hazard',
  title: 'Ground that reaches the frame only over a hinge',
  why: 'A tilting cab, a tailgate or a column sits on greased bearings. Without a strap of its own the current finds its way through them, or through a brake hose or a data lead: it pits bearings, heats, and comes and goes with every bump.',
  source: { text: 'Universal practice: a strap across everything that moves', grade: "fitters' habit" },
  needs: 'readings',
  explains: ['ground-lifts'],
  check: (facts) =>
    groundPoints(facts).flatMap(({ view, most }) => {
      const place = view.s.str('place');
      const subject = part(view.part.id);
      if (place === 'strapped-cab') return [fine(subject)];
      if (place !== 'hinge') return [];
      const dropV = most.amp * (view.s.num('measuredOhm') || (groundPlace(place)?.ohm ?? 0));
      return [
        found({
          level: most.amp > BEARING_A ? 'hazard' : 'fault',
          subject,
          what: `${called(view)} is joined to the frame over a hinge alone: up to ${amps(most.amp)} comes home through its bearing and loses ${two(dropV)} V there.`,
          todo: `Fit a braided strap of ${STRAP_MM2} mm² across the hinge, or bring the ground wire to the frame itself.`,
          figures: [
            { label: 'comes home there', value: most.amp, unit: 'A' },
            { label: 'lost there', value: dropV, unit: 'V' },
          ],
          state: most.state,
          band: most.band,
        }),
      ];
    }),
  repair: (finding) => [typing(finding.subject.id, { place: 'strapped-cab', measuredOhm: undefined }, `Strap the hinge with ${STRAP_MM2} mm²`, false)],
});
