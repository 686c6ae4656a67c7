import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { called, defineRule, part, two, verdicts, wire } from '../defineRule.ts';
import { filterPin } from '../filterPin.ts';
import { IN_LINE_OHM, moversOf, type PinUse, pinName, pinUses } from '../pins.ts';
import { along } from '../taps.ts';
import { grounded, netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('long-button-wire', 'E9');
/** A button's wire wants a guard above the first length, and an optocoupler above the second, m (fitters' habit). */
const BARE_M = 0.5;
const ISOLATED_M = 3;
/** A guard is a resistor of so much in line, and a capacitor of so much at the pin (fitters' habit). */
const LEAST_OHM = 330;
const LEAST_F = 10e-9;
const USUAL = { ohm: 1000, farad: 100e-9 } as const;
const HANDS: ReadonlySet<string> = new Set(['push-button', 'master-switch']);

export const longButtonWire = defineRule({
  id: 'long-button-wire',
  code: 'E9',
  level: 'fault',
  title: 'Long button wire without a guard',
  why: 'A long wire catches what relays and motors throw about, and a hand that touches its button brings a static spark. Both end in the pin: presses that nobody made, and one day a dead pin.',
  source: { text: '0.5 m, 3 m, 1 kΩ and 100 nF: common practice, no source', grade: "fitters' habit" },
  needs: 'graph',
  limits: [
    {
      key: 'bareButtonM',
      title: 'Button wire that needs no guard',
      unit: 'm',
      value: BARE_M,
      least: 0,
      most: ISOLATED_M,
      basis: 'common practice, no source; many leave a metre bare where no relay or motor lead runs beside it',
    },
  ],
  check: (facts) => wires(facts).map((l) => judge(l, facts.threshold('bareButtonM', BARE_M))),
  repair: (finding, facts) => {
    const l = wires(facts).find((x) => x.use.wire.id === finding.subject.id);
    if (!l || l.guarded || l.lengthM > ISOLATED_M || l.use.wires.length !== 1) return [];
    const { computer, cell } = l.use;
    return [{ title: 'Put 1 kΩ and 100 nF at the board', safe: true, edit: (plan) => filterPin(plan, computer.part.id, cell.pin, USUAL.ohm, USUAL.farad) }];
  },
});

interface Reached {
  readonly use: PinUse;
  readonly button: PartView;
  readonly lengthM: number;
  readonly guarded: boolean;
}

/** Pins with a button or switch, how far away it is, and whether resistor and capacitor stand between. */
function wires(facts: Facts): Reached[] {
  return pinUses(facts).flatMap((use) => {
    const button = moversOf(facts, use).find((m) => HANDS.has(m.kind.kind));
    if (!button) return [];
    const ways = facts.reach(use.key, ['resistor']);
    const steps = button.terminals.map((t) => ways.get(`${button.part.id}.${t.id}`)).find((s) => s !== undefined);
    if (!steps) return [];
    const inLine = steps.some((s) => s.linkType === 'resistor' && s.through !== null && inRange(s.through));
    return [{ use, button, lengthM: along(facts, steps).lengthM, guarded: inLine && capacitorAt(facts, use) }];
  });
}

function inRange(view: PartView): boolean {
  return view.kind.kind === 'resistor' && view.s.num('ohm') >= LEAST_OHM && view.s.num('ohm') <= IN_LINE_OHM;
}

function capacitorAt(facts: Facts, use: PinUse): boolean {
  return facts.ofKind('capacitor').some((c) => {
    const [a, b] = [netAt(facts, c, '+'), netAt(facts, c, '-')];
    return c.s.num('farad') >= LEAST_F && ((use.nets.has(a) && grounded(facts, b)) || (use.nets.has(b) && grounded(facts, a)));
  });
}

function judge({ use, button, lengthM, guarded }: Reached, bareM: number): Verdict {
  const subject = wire(use.wire.id);
  const far = lengthM > ISOLATED_M;
  if (lengthM <= bareM || (guarded && !far)) return fine(subject);
  return found({
    level: far && !guarded ? 'fault' : 'advice',
    subject,
    related: [part(button.part.id), part(use.computer.part.id)],
    what: `${called(button)} is ${two(lengthM)} m of wire away from ${pinName(use)}, ${guarded ? 'farther than a resistor and a capacitor at the board guard it' : 'with no resistor and capacitor at the board'}.`,
    todo: far ? 'Bring it over an optocoupler, or the button nearer.' : 'Put 1 kΩ into the wire and 100 nF from the pin to 0 V, both at the board.',
    figures: [{ label: 'away from the pin', value: lengthM, unit: 'm' }],
  });
}
