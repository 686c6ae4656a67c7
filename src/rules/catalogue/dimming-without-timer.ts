import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { digitalAudioRoles, type HeaderPin } from '../../trade/header.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { movePin } from '../movePin.ts';
import { type PinUse, pinName, pinUsesSeeing } from '../pins.ts';
import { netAt } from '../trace.ts';

const { fine, found } = verdicts('dimming-without-timer', 'E14');
const AUDIO: ReadonlySet<number> = new Set(Object.values(digitalAudioRoles));

export const dimmingWithoutTimer = defineRule({
  id: 'dimming-without-timer',
  code: 'E14',
  level: 'advice',
  title: 'Dimming on a pin without a timer',
  why: 'Brightness is set by switching fast, thousands of times a second. A timer of the chip does that evenly on a few pins; elsewhere the program does it, and the picture flickers whenever it is busy.',
  source: { text: 'Board maker’s pin functions: timers on GPIO 12, 13, 18 and 19 (read)', grade: 'data sheet' },
  needs: 'graph',
  check: (facts) =>
    dimmers(facts).map(({ use, display }) => {
      const subject = wire(use.wire.id);
      if (timed(use, use.cell)) return fine(subject);
      const busy = use.cell.functions.some((f) => f.startsWith('PWM'));
      return found({
        level: 'advice',
        subject,
        related: [part(display.part.id), part(use.computer.part.id)],
        what: `${pinName(use)} dims ${called(display)}, and ${busy ? 'digital sound needs that pin' : 'has no timer'}.`,
        todo: 'Use GPIO 13 or 12, or leave it if it is only switched on and off.',
      });
    }),
  repair: (finding, facts) => {
    const use = dimmers(facts).find((d) => d.use.wire.id === finding.subject.id)?.use;
    const move = use && movePin(facts, use, undefined, (cell) => timed(use, cell));
    return move ? [move] : [];
  },
});

/** Pins that see the brightness input of a display. */
function dimmers(facts: Facts): { readonly use: PinUse; readonly display: PartView }[] {
  return facts.ofKind('touch-display').flatMap((display) => {
    const use = pinUsesSeeing(facts, netAt(facts, display, 'bl'))[0];
    return use ? [{ use, display }] : [];
  });
}

/** Has the pin a timer that nothing else needs? */
function timed(use: PinUse, cell: HeaderPin): boolean {
  return cell.functions.some((f) => f.startsWith('PWM')) && !(use.computer.s.flag('digitalAudio') && cell.gpio !== null && AUDIO.has(cell.gpio));
}
