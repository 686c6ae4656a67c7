import type { Facts } from '../../analysis/factsTypes.ts';
import { PIN_MAX_V, RAIL3 } from '../../trade/logic.ts';
import { amps, called, defineRule, ohms, part, verdicts, volts, wire } from '../defineRule.ts';
import { moversOf, type PinUse, type Pull, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { endToRail3 } from '../toRail3.ts';

const { fine, found } = verdicts('pull-up-to-wrong-rail', 'E8');
/** Forward voltage of a pin's guard diode, V (common practice, no source). */
const GUARD_V = 0.6;

export const pullUpToWrongRail = defineRule({
  id: 'pull-up-to-wrong-rail',
  code: 'E8',
  level: 'hazard',
  title: 'Pull-up to the wrong rail',
  why: 'With the button open the pin is pulled up to what the resistor hangs on. That must be the computer’s own 3.3 V, or the rest flows through the chip, also while the computer is off.',
  source: { text: 'Board maker’s pin page: 3.3 V pins (read); guard diodes are not meant to carry current', grade: 'data sheet' },
  needs: 'graph',
  always: true,
  explains: ['pin-over-voltage'],
  check: (facts) =>
    pinUses(facts).flatMap((use) => {
      const pulls = pullsOn(facts, use.nets);
      if (pulls.length === 0) return [];
      const wrong = wrongPull(facts, use, pulls);
      if (!wrong) return [fine(wire(use.wire.id))];
      const nominal = wrong.volt;
      const volt = nominal >= facts.plan.vehicle.systemV ? facts.corners.hiV : nominal;
      const injectedA = (nominal - RAIL3.typicalV - GUARD_V) / wrong.view.s.num('ohm');
      return [
        found({
          level: 'hazard',
          subject: wire(use.wire.id),
          related: [part(wrong.view.part.id), part(use.computer.part.id)],
          what: `${called(wrong.view)} (${ohms(wrong.view.s.num('ohm'))}) pulls ${pinName(use)} up to ${volts(nominal)}; a pin stands ${PIN_MAX_V} V, and ${amps(injectedA)} go through its guard diode${volt > nominal ? `, more at ${volt} V` : ''}.`,
          todo: 'Join the pull-up to 3.3 V (pin 1 or 17).',
          figures: [
            { label: 'pulled up to', value: nominal, unit: 'V' },
            { label: 'through the guard diode', value: injectedA, unit: 'A' },
          ],
        }),
      ];
    }),
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => u.wire.id === finding.subject.id);
    const wrong = use && wrongPull(facts, use, pullsOn(facts, use.nets));
    const repair = wrong && endToRail3(facts, wrong.view.part.id, wrong.end, use);
    return repair ? [repair] : [];
  },
});

/** A resistor to more than a pin stands, on a pin that something pulls low, with no divider to bring it down. */
function wrongPull(facts: Facts, use: PinUse, pulls: readonly Pull[]): Pull | null {
  if (moversOf(facts, use).length === 0) return null;
  const down = parallelOhm(
    pulls.filter((p) => p.volt === 0).map((p) => p.view),
    'most',
  );
  return (
    pulls.find((p) => {
      const share = Number.isFinite(down) ? down / (down + p.view.s.num('ohm')) : 1;
      return p.volt > PIN_MAX_V && p.volt * share > PIN_MAX_V;
    }) ?? null
  );
}
