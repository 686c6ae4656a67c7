import type { Facts } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { ALL_PINS_A } from '../../trade/logic.ts';
import { SERIES } from '../../trade/preferred.ts';
import { type as typeIn } from '../build.ts';
import { amps, called, defineRule, ohms, part, verdicts, wire } from '../defineRule.ts';
import { once } from '../once.ts';
import { type PinUse, pinName, pinUses } from '../pins.ts';
import { greatestLedA, type LedCircuit, ledCircuit } from '../sensing.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('pin-current-too-high', 'E5');

export const pinCurrentTooHigh = defineRule({
  id: 'pin-current-too-high',
  code: 'E5',
  level: 'fault',
  title: 'Pins are asked for too much current',
  why: 'A pin gives a few milliamps. Asked for more its voltage sags until nothing reads it right, and all pins together heat the same chip.',
  source: { text: 'Board maker’s pin tables: 8 or 4 mA as the pin starts, 16 or 8 mA at its strongest; 50 mA together (read)', grade: 'data sheet' },
  needs: 'readings',
  check: (facts) => [...driven(facts).map((d) => judgePin(facts, d)), ...judgeAll(facts)],
  repair: (finding, facts) => {
    const d = driven(facts).find((x) => x.use.wire.id === finding.subject.id);
    return d ? weaker(d) : [];
  },
});

interface Driven {
  readonly use: PinUse;
  /** The most that it gives or takes, A; null where nothing was solved. */
  readonly amp: number | null;
  readonly led: LedCircuit | null;
}

/** Output pins, each with the worse of what was solved and what an LED with its resistor takes at its corner. */
const driven = once((facts): readonly Driven[] => {
  const leds = [...facts.ofKind('led', 'optocoupler')].flatMap((view) => ledCircuit(facts, view, 'A', 'K') ?? []);
  return pinUses(facts)
    .filter((u) => u.mode === 'out' || u.mode === 'stopped-signal')
    .map((use) => {
      const id = use.computer.part.id;
      const led = leds.find((l) => l.supply.key === use.key) ?? null;
      const ledA = led && led.leastOhm > 0 ? greatestLedA(led.supply.hiV, led.leastOhm) : 0;
      let amp: number | null = null;
      for (const r of facts.solved) {
        for (const stage of ['drive', 'sink']) {
          const a = facts.elementA(id, `${stage}${use.gpio}`, r.state, r.band);
          if (a !== null) amp = Math.max(amp ?? 0, Math.abs(a));
        }
      }
      return { use, led, amp: amp === null ? null : Math.max(amp, amp > 0 ? ledA : 0) };
    });
});

function judgePin(facts: Facts, { use, amp }: Driven): Verdict {
  const subject = wire(use.wire.id);
  if (amp === null) return unknown(subject, `what ${pinName(use)} gives could not be worked out`);
  const { driveDefaultA, driveMaxA } = use.logic;
  const strong = use.computer.s.flag('strongPins');
  const limitA = strong ? driveMaxA : driveDefaultA;
  if (amp <= limitA) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(use.computer.part.id)],
    what: `${pinName(use)} has to give ${amps(amp)}; ${amp > driveMaxA ? `no pin of ${called(facts.parts.get(use.computer.part.id)!)} gives more than ${amps(driveMaxA)}` : `as the board starts, before a program says otherwise, it gives ${amps(driveDefaultA)}`}.`,
    todo:
      amp > driveMaxA || strong
        ? 'Use a larger resistor, or let a low-side driver switch the load.'
        : 'Use a larger resistor, or set the pins to their strongest drive in the program.',
    figures: [
      { label: 'has to give', value: amp, unit: 'A' },
      { label: 'gives', value: amp > driveMaxA ? driveMaxA : limitA, unit: 'A' },
    ],
  });
}

function judgeAll(facts: Facts): Verdict[] {
  return facts.ofKind('computer').flatMap((computer) => {
    const mine = driven(facts).filter((d) => d.use.computer === computer);
    if (mine.length < 2) return [];
    const subject = part(computer.part.id);
    const sumA = mine.reduce((sum, d) => sum + (d.amp ?? 0), 0);
    if (sumA <= ALL_PINS_A) return [fine(subject)];
    return [
      found({
        level: 'fault',
        subject,
        what: `The output pins of ${called(computer)} have to give ${amps(sumA)} together; they share ${amps(ALL_PINS_A)}.`,
        todo: 'Use larger resistors, or let low-side drivers switch the loads.',
        figures: [
          { label: 'together', value: sumA, unit: 'A' },
          { label: 'they share', value: ALL_PINS_A, unit: 'A' },
        ],
      }),
    ];
  });
}

/** The next larger preferred resistor ahead of the LED that keeps to what a pin gives as it starts; the program's setting as well. */
function weaker({ use, amp, led }: Driven): Repair[] {
  const list: Repair[] = [];
  const one = led?.resistors[0];
  if (led && one && led.resistors.length === 1) {
    const least = greatestLedA(led.supply.hiV, 1) / use.logic.driveDefaultA / (1 - one.s.num('tol'));
    const ohm = [100, 1000, 10_000].flatMap((d) => SERIES.E12.map((m) => Math.round(m * d))).find((r) => r >= least);
    if (ohm !== undefined) {
      list.push({
        title: `Make ${called(one)} ${ohms(ohm)}`,
        safe: true,
        edit: (plan) => {
          const draft = new Draft(plan);
          typeIn(draft, one.part.id, { ohm });
          return draft.edit('repair.apply', 'Larger resistor at a pin');
        },
      });
    }
  }
  if (amp !== null && amp <= use.logic.driveMaxA && !use.computer.s.flag('strongPins')) {
    list.push({
      title: 'Answer: the program sets the pins to their strongest drive',
      safe: false,
      edit: (plan) => {
        const draft = new Draft(plan);
        typeIn(draft, use.computer.part.id, { strongPins: true });
        return draft.edit('repair.apply', 'Strongest drive');
      },
    });
  }
  return list;
}
