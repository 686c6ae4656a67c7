import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { listed } from '../../plan/listed.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { BOUNCE_S, RELAY_REST_S } from '../../trade/keyEvents.ts';
import { called, defineRule, part, plain, verdicts } from '../defineRule.ts';
import { insidePull, moversOf, type PinUse, parallelOhm, pinUses, pullsOn, relaysAt } from '../pins.ts';
import { grounded, netAt } from '../trace.ts';

const { fine, found } = verdicts('bounce-not-filtered', 'J11');
/** What one switches on when nothing is set, s. */
const USUAL_S = 0.05;

export const bounceNotFiltered = defineRule({
  id: 'bounce-not-filtered',
  code: 'J11',
  level: 'advice',
  title: 'Bouncing of buttons is not handled',
  why: 'A contact that closes hops for some thousandths of a second, and a bump in the road does the same. A program that counts every hop hears five presses where there was one.',
  source: { text: 'Bounce of 1 to 10 ms; 10 to 50 ms of filter in a program or by resistor and capacitor: common practice', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) =>
    facts.ofKind('computer').flatMap((computer) => {
      const buttons = pressed(facts, computer);
      if (buttons.length === 0) return [];
      const subject = part(computer.part.id);
      const open = buttons.filter((b) => computer.s.num('inputFilterS') < b.restS && tauS(facts, b.use) < b.restS);
      if (open.length === 0) return [fine(subject)];
      const views = [...new Set(open.map((b) => b.view))];
      const restS = Math.max(...open.map((b) => b.restS));
      return [
        found({
          level: 'advice',
          subject,
          related: views.map((v) => part(v.part.id)),
          what: `${called(computer)} believes ${listed(views.map(called), 3)} at the first touch: nothing waits ${plain(restS * 1e3)} ms until the contact has come to rest.`,
          todo: 'Let its program look again after 20 to 50 ms before a change counts.',
          figures: [{ label: 'waits', value: computer.s.num('inputFilterS'), unit: 's' }],
        }),
      ];
    }),
  repair: (finding) => [
    {
      title: `Let inputs count once steady for ${plain(USUAL_S * 1e3)} ms`,
      safe: true,
      edit: (plan) => setSettings(plan, finding.subject.id, { inputFilterS: USUAL_S }),
    },
  ],
});

interface Pressed {
  readonly use: PinUse;
  readonly view: PartView;
  /** Its contact has come to rest after this time, s. */
  readonly restS: number;
}

/** Buttons, switches and relay contacts at pins that a program reads; the key's own pin waits anyway. */
function pressed(facts: Facts, computer: PartView): Pressed[] {
  const sense = Math.round(computer.s.num('senseGpio'));
  return pinUses(facts)
    .filter((u) => u.computer === computer && u.mode !== 'out')
    .flatMap((use) => [
      ...moversOf(facts, use)
        .filter((v) => v.kind.kind !== 'optocoupler')
        .map((view) => ({ use, view, restS: BOUNCE_S })),
      ...relaysAt(facts, use).map((view) => ({ use, view, restS: RELAY_REST_S })),
    ])
    .filter((p) => !(p.use.gpio === sense && computer.s.num('filterS') >= p.restS));
}

/** Time constant of pull and capacitor at the pin, at its least, s. */
function tauS(facts: Facts, use: PinUse): number {
  const farad = facts
    .ofKind('capacitor')
    .filter((c) => [['+', '-'] as const, ['-', '+'] as const].some(([a, b]) => use.nets.has(netAt(facts, c, a)) && grounded(facts, netAt(facts, c, b))))
    .reduce((sum, c) => sum + c.s.num('farad') * (1 - c.s.num('tol')), 0);
  if (farad === 0) return 0;
  const drawn = parallelOhm(
    pullsOn(facts, use.nets).map((p) => p.view),
    'least',
  );
  const inside = Math.min(insidePull(use, 'up').least, insidePull(use, 'down').least);
  return farad / (1 / drawn + 1 / inside);
}
