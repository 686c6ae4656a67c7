import { GROUND_PLACES, groundPlace } from '../../trade/grounds.ts';
import { amps, called, defineRule, part, verdicts } from '../defineRule.ts';
import { typing } from '../fixes.ts';
import { groundPoints, studFor } from '../groundPoints.ts';

const { fine, found } = verdicts('ground-place-unfit', 'H7');
/** Less is no figure worth telling, A. */
const NEXT_TO_NOTHING_A = 1e-3;

export const groundPlaceUnfit = defineRule({
  id: 'ground-place-unfit',
  code: 'H7',
  level: 'hazard',
  title: 'Ground wire on a bolt that is not meant for it',
  why: 'All that the build draws comes home over this one bolt. Vehicle makers weld bare studs for it; bolts that hold people, brakes or steering are never touched, and paint or a loose screw turns into a resistor.',
  source: {
    text: 'Vehicle makers’ instructions on restraint, brake and steering fixings (from memory); fitters’ practice on paint and screws',
    grade: "fitters' habit",
  },
  needs: 'readings',
  explains: ['ground-lifts'],
  check: (facts) =>
    groundPoints(facts).flatMap(({ view, most }) => {
      const subject = part(view.part.id);
      const place = groundPlace(view.s.str('place'));
      // What lies behind a hinge has a rule of its own.
      if (!place || view.s.str('place') === 'hinge') return [];
      if (!place.unfit) return [fine(subject)];
      return [
        found({
          level: place.unfit.level,
          subject,
          what: `${view.name.toLowerCase() === place.label ? `${called(view)} is used as ground` : `${called(view)} is bolted to the ${place.label}`}, and ${most.amp < NEXT_TO_NOTHING_A ? 'current may come' : `up to ${amps(most.amp)} comes`} home there: ${place.unfit.why}.`,
          todo: 'Use a ground stud of the vehicle: bare metal, ring terminal, spring washer, sealed afterwards.',
          figures: [{ label: 'comes home there', value: most.amp, unit: 'A' }],
          state: most.state,
          band: most.band,
        }),
      ];
    }),
  repair: (finding, facts) => {
    const here = groundPoints(facts).find((p) => p.view.part.id === finding.subject.id);
    if (!here) return [];
    const place = studFor(facts, here.view);
    return [typing(here.view.part.id, { place, measuredOhm: undefined }, `Bolt it to the ${GROUND_PLACES[place].label}`, false)];
  },
});
