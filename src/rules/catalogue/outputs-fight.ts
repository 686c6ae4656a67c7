import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { splitWire } from '../../plan/wireEdits.ts';
import { consoleRoles } from '../../trade/header.ts';
import { called, defineRule, ohms, part, verdicts, volts, wire } from '../defineRule.ts';
import { type PinUse, pinName, pinUses, pinUsesOn } from '../pins.ts';
import { grounded, type Hop, isResistor, netAt, partsOn, railV, waysFrom } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('outputs-fight', 'E3');
/** From so much in line on, 3.3 V push no more than a pin gives: 10 mA (practice). */
const HARMLESS_OHM = 330;
const USUAL_OHM = 1000;

export const outputsFight = defineRule({
  id: 'outputs-fight',
  code: 'E3',
  level: 'hazard',
  title: 'Two outputs fight over one wire',
  why: 'An output pin holds its wire high or low with all it has. Meet another output, or a button to ground, and the two short each other through the chip.',
  source: { text: 'Universal practice; pin currents of the board maker’s tables (read)', grade: 'data sheet' },
  needs: 'graph',
  explains: ['pin-current-too-high', 'pin-with-two-jobs'],
  check: (facts) =>
    pinUses(facts)
      .filter(drives)
      .map((use) => judge(facts, use)),
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => drives(u) && u.wire.id === finding.subject.id);
    const fight = use && fightOf(facts, use);
    return use && fight ? repairs(use, fight) : [];
  },
});

/** Does the pin hold its wire high and low? */
function drives(use: PinUse): boolean {
  return use.mode === 'out' || use.mode === 'stopped-signal' || (use.mode === 'serial' && use.gpio === consoleRoles.txd);
}

interface Fight {
  readonly against: string;
  readonly ohm: number;
  /** The contact on the way, if that is what closes it. */
  readonly contact: PartView | null;
  readonly other: PinUse | null;
  /** The device that sends on the same wire. */
  readonly sender?: PartView;
}

/** A rail, ground or further output that the pin meets over less than some hundred ohms, contacts taken as closed. */
function fightOf(facts: Facts, use: PinUse): Fight | null {
  const start = netAt(facts, use.computer, `${use.cell.pin}`);
  const ends = (net: number): boolean => railV(facts, net) !== null || grounded(facts, net);
  const through = (h: Hop): boolean => isResistor(h) || h.link.type === 'contact' || h.link.type === 'fuse' || h.link.type === 'conductor';
  for (const [net, way] of waysFrom(facts, start, through, ends)) {
    if (way.ohm >= HARMLESS_OHM) continue;
    const contact = way.hops.find((h) => h.link.type === 'contact')?.views[0] ?? null;
    if (ends(net)) {
      const rail = railV(facts, net);
      const where = grounded(facts, net) ? '0 V' : volts(rail ?? 0);
      return { against: contact ? `${where} over ${called(contact)}` : where, ohm: way.ohm, contact, other: null };
    }
    const other = pinUsesOn(facts, net).find((u) => u.key !== use.key && drives(u));
    if (other) return { against: `the output ${pinName(other)}`, ohm: way.ohm, contact, other };
    // A console's own line against a sender is crossed wrong, which another rule says.
    const sender = use.mode === 'serial' ? undefined : partsOn(facts, net).find((p) => p.view.kind.kind === 'serial-device' && p.terminal === 'tx')?.view;
    if (sender) return { against: `TX of ${called(sender)}, which sends on the same wire,`, ohm: way.ohm, contact, other: null, sender };
  }
  // A wire from pin to pin stands for the first of them only.
  const twin = facts.netTerminals(start).find((key) => key !== use.key && isOutput(facts, use, key));
  return twin ? { against: `the output pin ${twin.split('.')[1]}`, ohm: 0, contact: null, other: null } : null;
}

function isOutput(facts: Facts, use: PinUse, key: string): boolean {
  const at = facts.at(key);
  if (at?.view.kind.kind !== 'computer' || at.terminal.role !== 'signal') return false;
  const gpio = Number(/GPIO (\d+)/.exec(at.terminal.title)?.[1]);
  return at.view.s.str(`gpio${gpio}Mode`) === 'out' && key !== use.key;
}

function judge(facts: Facts, use: PinUse): Verdict {
  const subject = wire(use.wire.id);
  const fight = fightOf(facts, use);
  if (!fight) return fine(subject);
  return found({
    level: 'hazard',
    subject,
    related: [
      ...new Set([
        use.computer.part.id,
        ...(fight.contact ? [fight.contact.part.id] : []),
        ...(fight.other ? [fight.other.computer.part.id] : []),
        ...(fight.sender ? [fight.sender.part.id] : []),
      ]),
    ].map(part),
    what: `${pinName(use)} is an output and meets ${fight.against} with ${fight.ohm > 0 ? `${ohms(fight.ohm)} between` : 'nothing between'}.`,
    todo: fight.sender
      ? 'Make the pin an input, or give it a wire of its own.'
      : fight.contact
        ? `Make it an input with its pull-up on, or put ${USUAL_OHM / 1000} kΩ into its wire.`
        : `Put ${USUAL_OHM / 1000} kΩ into the wire, or make one of the two an input.`,
    figures: [{ label: 'between them', value: fight.ohm, unit: 'Ω' }],
  });
}

function repairs(use: PinUse, fight: Fight): Repair[] {
  const list: Repair[] = [];
  if (fight.contact && use.mode === 'out') {
    list.push({
      title: `Make GPIO ${use.gpio} an input, pulled up`,
      safe: false,
      edit: (plan) => setSettings(plan, use.computer.part.id, { [`gpio${use.gpio}Mode`]: 'in-up' }),
    });
  }
  if (fight.sender && use.mode === 'out') {
    list.push({
      title: `Make GPIO ${use.gpio} an input`,
      safe: false,
      edit: (plan) => setSettings(plan, use.computer.part.id, { [`gpio${use.gpio}Mode`]: 'in' }),
    });
  }
  if (use.wires.length === 1 && !fight.sender) {
    const row = use.computer.part;
    const resistor = { kind: 'resistor', zone: row.zone, x: Math.max(0, row.x - 130), y: row.y + 60, settings: { ohm: USUAL_OHM } };
    list.push({
      title: `Put ${ohms(USUAL_OHM)} into its wire`,
      safe: true,
      edit: (plan) => (plan.wires[use.wire.id] ? splitWire(plan, use.wire.id, resistor, '1', '2').edit : null),
    });
  }
  return list;
}
