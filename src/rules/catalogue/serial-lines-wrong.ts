import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { listed } from '../../plan/listed.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { consoleRoles } from '../../trade/header.ts';
import { SERIAL_LEVELS, type SerialLevel } from '../../trade/links.ts';
import { called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { turnRound } from '../fixes.ts';
import { nearNets, type PinUse, pinName, pinUses } from '../pins.ts';
import { netAt } from '../trace.ts';
import type { Verdict } from '../types.ts';

const { fine, found } = verdicts('serial-lines-wrong', 'I6');

export const serialLinesWrong = defineRule({
  id: 'serial-lines-wrong',
  code: 'I6',
  level: 'hazard',
  title: 'Serial levels or crossing wrong',
  why: 'What one side sends the other must hear: TX goes to RX, both ways, and both share a ground. Older plugs send ±12 V, which destroys a pin made for 3.3 V.',
  source: { text: 'RS-232 levels −3 to −15 V and 3 to 15 V (from memory); pins 3.3 V, board maker’s pin page (read)', grade: 'standard' },
  needs: 'graph',
  always: true,
  explains: ['input-left-floating', 'pin-over-voltage'],
  check: (facts) => facts.ofKind('serial-device').flatMap((view) => judge(facts, view)),
  repair: (finding, facts) => {
    const view = facts.parts.get(finding.subject.id);
    if (!view) return [];
    if (finding.level === 'hazard') {
      return [{ title: 'Take it with 3.3 V levels', safe: false, edit: (plan) => setSettings(plan, view.part.id, { levels: undefined }) }];
    }
    return finding.data?.crossed === true ? [turnRound(view, 'tx', 'rx', `Swap TX and RX of ${view.item}`)] : [];
  },
});

function judge(facts: Facts, view: PartView): Verdict[] {
  const pins = { tx: pinOn(facts, view, 'tx'), rx: pinOn(facts, view, 'rx') };
  const subject = part(view.part.id);
  const uses = [pins.tx, pins.rx].filter((u): u is PinUse => u !== null);
  const related = [...new Set(uses.map((u) => u.wire.id))].map(wire);
  const rival = facts.ofKind('serial-device').find((v) => v !== view && sameNet(facts, v, view, 'tx') && v.part.id < view.part.id);
  if (rival) {
    return [
      found({
        level: 'fault',
        subject,
        related: [part(rival.part.id), ...related],
        what: `${called(view)} and ${called(rival)} both send on the same line: neither is understood.`,
        todo: 'Give each a serial line of its own.',
      }),
    ];
  }
  if (uses.length === 0) return [];
  const levels = SERIAL_LEVELS[view.s.str('levels') as SerialLevel];
  if (view.s.str('levels') === 'rs232') {
    return [
      found({
        level: 'hazard',
        subject,
        related,
        what: `${called(view)} talks with ${levels.title} and is joined to ${listed(uses.map(pinName))}, made for 3.3 V.`,
        todo: 'Put a level converter between, or take the device with 3.3 V levels.',
        figures: [{ label: 'line at rest', value: levels.idleV, unit: 'V' }],
      }),
    ];
  }
  const crossed = pins.tx?.gpio === consoleRoles.txd || pins.rx?.gpio === consoleRoles.rxd;
  if (crossed) {
    const wrong = pins.tx?.gpio === consoleRoles.txd ? pins.tx : pins.rx!;
    const own = wrong === pins.tx ? 'TX' : 'RX';
    return [
      found({
        level: 'fault',
        subject,
        related,
        what: `${own} of ${called(view)} is joined to ${pinName(wrong)}, which is the computer’s ${own} too: ${own === 'TX' ? 'both send and nobody listens' : 'both listen and nobody sends'}.`,
        todo: 'Cross the two lines: TX to RX, RX to TX.',
        data: { crossed: true },
      }),
    ];
  }
  if (!sharesGround(facts, view, uses[0]!)) {
    return [
      found({
        level: 'fault',
        subject,
        related,
        what: `The minus of ${called(view)} is not joined to the ground of ${called(uses[0]!.computer)}: its levels have nothing to be measured against.`,
        todo: 'Join its minus to a ground pin of the header.',
      }),
    ];
  }
  return [fine(subject)];
}

/** The pin that a line of the device ends at, over resistors in line. */
function pinOn(facts: Facts, view: PartView, terminal: string): PinUse | null {
  if (!facts.isWired(`${view.part.id}.${terminal}`)) return null;
  const nets = nearNets(facts, netAt(facts, view, terminal));
  return pinUses(facts).find((u) => nets.has(netAt(facts, u.computer, `${u.cell.pin}`))) ?? null;
}

function sameNet(facts: Facts, a: PartView, b: PartView, terminal: string): boolean {
  return facts.isWired(`${a.part.id}.${terminal}`) && netAt(facts, a, terminal) === netAt(facts, b, terminal);
}

function sharesGround(facts: Facts, view: PartView, use: PinUse): boolean {
  const minus = `${view.part.id}.-`;
  if (!facts.isWired(minus)) return true;
  return [...facts.reach(minus, ['conductor']).keys()].some((k) => k === '0' || k.startsWith('chassis:') || k === `${use.computer.part.id}.6`);
}
