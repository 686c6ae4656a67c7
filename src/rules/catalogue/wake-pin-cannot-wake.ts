import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { WAKE_GPIO } from '../../trade/header.ts';
import { called, defineRule, part, verdicts } from '../defineRule.ts';
import { moversOf, pinUses } from '../pins.ts';
import { netAt } from '../trace.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('wake-pin-cannot-wake', 'E15');

export const wakePinCannotWake = defineRule({
  id: 'wake-pin-cannot-wake',
  code: 'E15',
  level: 'fault',
  title: 'Wake button on a pin that cannot wake',
  why: 'A stopped board listens to one pin alone, GPIO 3, and not even to that one when another pin is set to say “stopped”. A button anywhere else does nothing until the power has been away.',
  source: { text: 'Board maker’s configuration notes on stopping and waking (read)', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    facts
      .ofKind('computer')
      .filter((c) => c.s.str('wakes') === 'gpio3')
      .map((computer) => {
        const subject = part(computer.part.id);
        const lacks = lacking(facts, computer);
        if (lacks === null || powerButton(facts)) return fine(subject);
        return found({
          level: 'fault',
          subject,
          related: lacks === 'button' ? hands(facts, computer).map((v) => part(v.part.id)) : [],
          what:
            lacks === 'button'
              ? `${called(computer)} is to start again by a button, and no button is on GPIO ${WAKE_GPIO} (pin 5), the only pin that wakes it.`
              : `${called(computer)} is to start again by GPIO ${WAKE_GPIO}, and GPIO ${Math.round(computer.s.num('powerOffPin'))} says “stopped”, which takes that away.`,
          todo:
            lacks === 'button'
              ? `Join the button to GPIO ${WAKE_GPIO}, or let power that goes away and comes back start it.`
              : 'Let power that goes away and comes back start it, or do without the “stopped” pin.',
        });
      }),
  repair: (finding, facts) => {
    const computer = facts.parts.get(finding.subject.id);
    if (!computer) return [];
    const id = computer.part.id;
    const byPower: Repair = { title: 'Let power that goes and comes back start it', safe: false, edit: (plan) => setSettings(plan, id, { wakes: undefined }) };
    if (lacking(facts, computer) === 'button') return [byPower];
    // Without a button on GPIO 3 freeing it mends nothing.
    return woken(facts, computer)
      ? [byPower, { title: 'Do without the “stopped” pin', safe: false, edit: (plan) => setSettings(plan, id, { powerOffPin: undefined }) }]
      : [byPower];
  },
});

/** What keeps GPIO 3 from waking the computer; null when nothing does. */
function lacking(facts: Facts, computer: PartView): 'button' | 'stopped pin' | null {
  if (Math.round(computer.s.num('powerOffPin')) !== 0) return 'stopped pin';
  return woken(facts, computer) ? null : 'button';
}

/** Can something pull GPIO 3 low? */
function woken(facts: Facts, computer: PartView): boolean {
  return pinUses(facts).some((u) => u.computer === computer && u.gpio === WAKE_GPIO && moversOf(facts, u).length > 0);
}

function hands(facts: Facts, computer: PartView): PartView[] {
  const uses = pinUses(facts).filter((u) => u.computer === computer);
  return [...new Set(uses.flatMap((u) => moversOf(facts, u)).filter((m) => m.kind.kind === 'push-button'))];
}

/** A button that brings the supply itself back, over a latch. */
function powerButton(facts: Facts): boolean {
  return facts.ofKind('hold-latch').some((latch) => {
    const sets = new Set(['set', 'set2'].map((t) => netAt(facts, latch, t)));
    return facts.ofKind('push-button').some((b) => b.terminals.some((t) => sets.has(netAt(facts, b, t.id))));
  });
}
