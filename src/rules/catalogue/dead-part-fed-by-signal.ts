import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { memo } from '../../analysis/memo.ts';
import type { Reading } from '../../analysis/types.ts';
import { USB_PORTS } from '../../parts/computer/elements.ts';
import { supplyPair } from '../../parts/computer/facts.ts';
import type { VehicleState } from '../../plan/types.ts';
import { splitWire } from '../../plan/wireEdits.ts';
import { PIN_MAX_V } from '../../trade/logic.ts';
import { amps, called, defineRule, part, STATE_WORDS, verdicts, wire } from '../defineRule.ts';
import { once } from '../once.ts';
import { type PinUse, pinName, pinUses } from '../pins.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('dead-part-fed-by-signal', 'C16');
/** Current into a part that is off from which it wakes half or is harmed, A (fitters' habit). */
const INTO_DEAD_A = 0.5e-3;
/** A display with so much is on, a computer with less than that is off, V (common practice, no source). */
const ON_V = 3;
const OFF_V = 1;
/** Keeps what a 3.3 V line can push in below that, ohm. */
const SERIES_OHM = 10_000;

export const deadPartFedBySignal = defineRule({
  id: 'dead-part-fed-by-signal',
  code: 'C16',
  level: 'fault',
  title: 'A part that is off is fed through its signal leads',
  why: 'A line that is live while the computer is off pushes current through its input into the dead rail. It glows half alive, may not start when its power comes, and the input wears.',
  source: { text: 'Universal practice; picture inputs have 50 Ω to 3.3 V in each line (from memory of the plug’s specification)', grade: "fitters' habit" },
  needs: 'readings',
  check: (facts) => [...pinUses(facts).map((use) => judgePin(facts, use)), ...displays(facts).map((d) => judgeDisplay(facts, d))],
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => finding.subject.kind === 'wire' && u.wire.id === finding.subject.id);
    if (!use || use.wires.length > 1) return [];
    const resistor = {
      kind: 'resistor',
      zone: use.computer.part.zone,
      x: Math.max(0, use.computer.part.x - 130),
      y: use.computer.part.y + 60,
      settings: { ohm: SERIES_OHM },
    };
    return [
      {
        title: `Put ${SERIES_OHM / 1000} kΩ into the wire`,
        safe: true,
        edit: (plan) => (plan.wires[use.wire.id] ? splitWire(plan, use.wire.id, resistor, '1', '2').edit : null),
      },
    ];
  },
});

/** What goes through a pin's guard diode into the rail of a computer that has no power. */
function judgePin(facts: Facts, use: PinUse): Verdict {
  const subject = wire(use.wire.id);
  const worst = intoDead(facts, use);
  if (!worst || worst.amp <= INTO_DEAD_A || tooMuchWhileOn(facts, use)) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(use.computer.part.id)],
    what: `${amps(worst.amp)} go into ${pinName(use)} while ${called(use.computer)} has no power (${STATE_WORDS[worst.reading.state]}).`,
    todo: `Feed both ends from one supply, or put ${SERIES_OHM / 1000} kΩ or an optocoupler into the line.`,
    figures: [
      { label: 'into the pin', value: worst.amp, unit: 'A' },
      { label: 'harmless below', value: INTO_DEAD_A, unit: 'A' },
    ],
    state: worst.reading.state,
    band: worst.reading.band,
  });
}

function intoDead(facts: Facts, use: PinUse): { readonly amp: number; readonly reading: Reading } | null {
  let worst: { amp: number; reading: Reading } | null = null;
  for (const reading of without(facts, use.computer)) {
    const amp = facts.elementA(use.computer.part.id, `clampHi${use.gpio}`, reading.state, reading.band) ?? 0;
    if (amp > (worst?.amp ?? 0)) worst = { amp, reading };
  }
  return worst;
}

const deadReadings = once((facts) =>
  memo((computer: PartView): readonly Reading[] => facts.solved.filter((r) => !facts.deviceOn(computer.part.id, 'powered', r.state, r.band))),
);

/** Readings in which a computer has no power. */
const without = (facts: Facts, computer: PartView): readonly Reading[] => deadReadings(facts)(computer);

/** Too much at a pin while the computer runs is another rule's. */
function tooMuchWhileOn(facts: Facts, use: PinUse): boolean {
  const dead = new Set(without(facts, use.computer));
  return facts.solved.some((r) => !dead.has(r) && (facts.across(use.key, `${use.computer.part.id}.6`, r.state, r.band) ?? 0) > PIN_MAX_V);
}

interface Linked {
  readonly display: PartView;
  readonly computer: PartView;
  readonly lead: string;
}

/** Displays whose picture or touch lead goes to a computer. */
function displays(facts: Facts): Linked[] {
  return facts.ofKind('computer').flatMap((computer) => {
    const seen = new Set<PartView>();
    return ['video', ...USB_PORTS.map((k) => `usb${k}`)].flatMap((out) => {
      const key = `${computer.part.id}.${out}`;
      if (!facts.isWired(key)) return [];
      return [...facts.reach(key, ['conductor']).keys()].flatMap((k) => {
        const at = facts.at(k);
        if (at?.view.kind.kind !== 'touch-display' || seen.has(at.view) || (at.terminal.id !== 'video' && at.terminal.id !== 'touch')) return [];
        seen.add(at.view);
        return [{ display: at.view, computer, lead: at.terminal.id === 'video' ? 'picture' : 'touch' }];
      });
    });
  });
}

function judgeDisplay(facts: Facts, { display, computer, lead }: Linked): Verdict {
  const subject = part(display.part.id);
  const supply = supplyPair(computer.s);
  const volt = (view: PartView, plus: string, minus: string, state: VehicleState): number =>
    facts.across(`${view.part.id}.${plus}`, `${view.part.id}.${minus}`, state, 'typical') ?? 0;
  const apart = without(facts, computer).find(
    (r) => r.band === 'typical' && volt(display, '5v', '0v', r.state) > ON_V && volt(computer, supply.plus, supply.minus, r.state) < OFF_V,
  );
  if (!apart) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(computer.part.id)],
    what: `${called(display)} is on while ${called(computer)} has no power (${STATE_WORDS[apart.state]}): its ${lead} lead feeds the computer half alive, and it may not start.`,
    todo: 'Feed the display from the 5 V that feeds the computer.',
    state: apart.state,
    band: 'typical',
  });
}
