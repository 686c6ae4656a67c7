import type { Facts } from '../../analysis/factsTypes.ts';
import { RAIL3 } from '../../trade/logic.ts';
import { called, defineRule, part, verdicts, volts, wire } from '../defineRule.ts';
import { isRail3, moversOf, type PinUse, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { addPull } from '../sensingEdits.ts';
import { grounded, netAt } from '../trace.ts';

const { fine, found } = verdicts('pull-works-against-button', 'E7');
const PULL_OHM = 10_000;
const HANDS: ReadonlySet<string> = new Set(['push-button', 'master-switch']);

export const pullWorksAgainstButton = defineRule({
  id: 'pull-works-against-button',
  code: 'E7',
  level: 'advice',
  title: 'A stop button reads “pressed” until the program has set its pin',
  why: 'From power-on until a program says otherwise, GPIO 9 to 27 are pulled low inside the board. A button to 0 V there looks pressed all that time. A program sets the pull of its buttons before it looks at them; but one that stops the computer must not look a moment too early.',
  source: { text: 'Board maker’s pin pages: pulls from power-on and their spread (read); GPIO 0 to 8 up, the others down', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    buttons(facts).map((use) => {
      const subject = wire(use.wire.id);
      const volt = restV(facts, use);
      if (!stops(use) || volt >= use.logic.vIhMinV) return fine(subject);
      const hand = moversOf(facts, use).find((m) => HANDS.has(m.kind.kind))!;
      return found({
        level: 'advice',
        subject,
        related: [part(use.computer.part.id), part(hand.part.id)],
        what: `Until its program has set the pull, ${pinName(use)} rests at ${volts(volt)} at the least and ${called(hand)}, which stops the computer, reads pressed: high is ${volts(use.logic.vIhMinV)} and more.`,
        todo: `Add ${PULL_OHM / 1000} kΩ to 3.3 V, use one of GPIO 4 to 8, or let the program set the pull a moment before it looks.`,
        figures: [
          { label: 'rests at', value: volt, unit: 'V' },
          { label: 'reads high from', value: use.logic.vIhMinV, unit: 'V' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const use = buttons(facts).find((u) => u.wire.id === finding.subject.id);
    return use && use.wires.length === 1 ? [addPull(use, PULL_OHM, true)] : [];
  },
});

/** Does the computer stop by what this pin reads? Every other button is read only after its pull has been set. */
function stops(use: PinUse): boolean {
  return Math.round(use.computer.s.num('senseGpio')) === use.gpio;
}

/** Inputs that a button or switch pulls to ground. */
function buttons(facts: Facts): PinUse[] {
  return pinUses(facts).filter(
    (u) => u.mode.startsWith('in') && moversOf(facts, u).some((m) => HANDS.has(m.kind.kind) && m.terminals.some((t) => grounded(facts, netAt(facts, m, t.id)))),
  );
}

/** The pin from power-on with the button open, at its least, V: the board's first pull against resistors to 3.3 V. */
function restV(facts: Facts, use: PinUse): number {
  if (use.cell.bootPull === 'up') return RAIL3.minV;
  const up = pullsOn(facts, use.nets).filter((p) => isRail3(p.volt));
  const ohm = parallelOhm(
    up.map((p) => p.view),
    'most',
  );
  return Number.isFinite(ohm) ? (RAIL3.minV * use.logic.pullMinOhm) / (use.logic.pullMinOhm + ohm) : 0;
}
