import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import type { Wire } from '../../plan/types.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { converters } from '../rails.ts';
import { landing, ownReturn, returnEnd } from '../returnPath.ts';
import { type Sensor, sensors } from '../sensing.ts';

const { fine, found } = verdicts('isolation-thrown-away', 'D6');

export const isolationThrownAway = defineRule({
  id: 'isolation-thrown-away',
  code: 'D6',
  level: 'advice',
  title: 'The sensor’s two grounds share a wire',
  why: 'An optocoupler passes a signal with no copper between. When the LED’s return joins the computer’s ground on the way home, that gap is bridged again: surges are still kept off the pin, but ground noise is not.',
  source: { text: 'Common practice, no source; both grounds meet at the body anyway, what counts is the shared wire', grade: "fitters' habit" },
  needs: 'graph',
  disputed:
    'Is an optocoupler worth it where all grounds meet in the body anyway? Its isolation gains little there, and a divider with a clamp is cheaper. It still lets no spike through to the pin and copes with a wider range of volts than any one divider. Here the optocoupler is the usual choice, and that its ground is shared is advice alone.',
  check: (facts) =>
    watching(facts).map((sensor) => {
      const { opto } = sensor;
      const subject = part(opto.part.id);
      const meets = sharedWith(facts, sensor);
      if (!meets) return fine(subject);
      return found({
        level: 'advice',
        subject,
        related: [part(meets.view.part.id), ...(meets.first ? [wire(meets.first.id)] : [])],
        what: `The return of the LED in ${called(opto)} joins the ground of ${called(meets.view)} before it reaches the body.`,
        todo: 'Take the LED’s return to the body with a wire of its own, at the sensed thing; or leave it and say why.',
      });
    }),
  repair: (finding, facts) => {
    const sensor = sensors(facts).find((s) => s.opto.part.id === finding.subject.id);
    const meets = sensor && sharedWith(facts, sensor);
    if (!sensor?.led || !meets) return [];
    const { view, terminal } = returnEnd(facts, sensor.opto, 'K', sensor.led);
    return ownReturn(facts, view, terminal, meets.first, sensor.led.supply.view.part.zone);
  },
});

/** Optocouplers whose LED the vehicle feeds. */
function watching(facts: Facts): readonly Sensor[] {
  return sensors(facts).filter((s) => s.led?.supply.vehicle);
}

/** The computer, or a converter that feeds one, whose ground the LED's return meets on its way to the body. */
function sharedWith(facts: Facts, { opto, led }: Sensor): { readonly view: PartView; readonly first: Wire | null } | null {
  const sharers = new Set<PartView>([...facts.ofKind('computer'), ...converters(facts).map((c) => c.view)]);
  const from = returnEnd(facts, opto, 'K', led);
  for (const [key, way] of landing(facts, from.view, from.terminal).at) {
    const view = facts.at(key)?.view;
    if (view && sharers.has(view)) return { view, first: way.first };
  }
  return null;
}
