import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { listed } from '../../plan/listed.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { SERIAL_LEVELS, type SerialLevel } from '../../trade/links.ts';
import { PIN_MAX_V } from '../../trade/logic.ts';
import { called, defineRule, part, verdicts, volts, wire } from '../defineRule.ts';
import { type PinUse, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { endToRail3 } from '../toRail3.ts';
import { netAt, railV } from '../trace.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('five-volt-logic-on-pin', 'E16');
/** What feeds it may be so much above its nominal volts (USB and header rails: 5 V + 5 %, read). */
const RAIL_OVER = 1.05;

export const fiveVoltLogicOnPin = defineRule({
  id: 'five-volt-logic-on-pin',
  code: 'E16',
  level: 'hazard',
  title: 'A 5 V part talks to a 3.3 V pin',
  why: 'A sensor or receiver on 5 V pulls or drives its lines to 5 V. A pin is made for 3.3 V: it carries the rest through its guard diode into the chip, all day long.',
  source: { text: 'Board maker’s pin page: 3.3 V, above that destruction is likely (read)', grade: 'data sheet' },
  needs: 'graph',
  always: true,
  explains: ['pin-over-voltage', 'vehicle-voltage-at-pin', 'dead-part-fed-by-signal'],
  check: (facts) =>
    partners(facts).map(({ view, uses }) => {
      const subject = part(view.part.id);
      const highV = highOf(facts, view);
      const bad = uses.filter((u) => highV !== null && atPinV(facts, view, u, highV) > PIN_MAX_V);
      if (highV === null || bad.length === 0) return fine(subject);
      const mostV = Math.max(...bad.map((u) => atPinV(facts, view, u, highV)));
      const divided = mostV < highV;
      return found({
        level: 'hazard',
        subject,
        related: [...new Set(bad.map((u) => u.wire.id))].map(wire),
        what: `The lines of ${called(view)} are high at ${volts(highV)} and end at ${listed(bad.map(pinName))}${divided ? `, where the divider leaves up to ${volts(mostV)}` : ''}; a pin stands ${PIN_MAX_V} V.`,
        todo: divided
          ? 'Make the resistor in the line larger or the one to 0 V smaller, or put a level shifter between.'
          : 'Feed it from 3.3 V if it runs on that, or put a level shifter between.',
        figures: [
          { label: 'lines are high at', value: highV, unit: 'V' },
          { label: 'at the pin', value: mostV, unit: 'V' },
          { label: 'pin stands', value: PIN_MAX_V, unit: 'V' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const here = partners(facts).find((p) => p.view.part.id === finding.subject.id);
    return here?.uses[0] ? repairs(facts, here.view, here.uses[0]) : [];
  },
});

interface Partner {
  readonly view: PartView;
  readonly uses: readonly PinUse[];
}

/** Bus and serial devices whose lines end at pins. */
function partners(facts: Facts): Partner[] {
  return facts.ofKind('bus-device', 'serial-device').flatMap((view) => {
    const lines = signals(view).map((t) => netAt(facts, view, t.id));
    const uses = pinUses(facts).filter((u) => lines.some((net) => u.nets.has(net)));
    return uses.length > 0 ? [{ view, uses }] : [];
  });
}

/** Lines that it pulls or drives; where it only listens it lifts nothing. */
function signals(view: PartView): readonly { readonly id: string }[] {
  return view.terminals.filter((t) => t.role === 'signal' && t.id !== 'rx');
}

/** Volts of its lines when high; null where nothing known feeds it. */
function highOf(facts: Facts, view: PartView): number | null {
  if (view.kind.kind === 'serial-device') return SERIAL_LEVELS[view.s.str('levels') as SerialLevel].idleV;
  return view.s.str('level') === '3v3' ? 0 : railV(facts, netAt(facts, view, '+'));
}

/** What may come to a pin at the most: the lines at their highest, divided where resistors do that, all at their unkind ends. */
function atPinV(facts: Facts, view: PartView, use: PinUse, highV: number): number {
  const own = netAt(facts, use.computer, `${use.cell.pin}`);
  const ways = facts.reach(use.key, ['resistor']);
  const steps =
    signals(view)
      .map((t) => ways.get(`${view.part.id}.${t.id}`))
      .find((s) => s !== undefined) ?? [];
  const inLine = steps.reduce((sum, s) => {
    const r = s.linkType === 'resistor' && s.through?.kind.kind === 'resistor' ? s.through.s : null;
    return r ? sum + r.num('ohm') * (1 - r.num('tol')) : sum;
  }, 0);
  const down = pullsOn(facts, new Set([own])).filter((p) => p.volt === 0);
  if (inLine === 0 || down.length === 0) return highV * RAIL_OVER;
  const low = parallelOhm(
    down.map((p) => p.view),
    'most',
  );
  return (highV * RAIL_OVER * low) / (low + inLine);
}

function repairs(facts: Facts, view: PartView, use: PinUse): Repair[] {
  const id = view.part.id;
  if (view.kind.kind === 'serial-device') {
    return [{ title: 'Take it with 3.3 V levels', safe: false, edit: (plan) => setSettings(plan, id, { levels: undefined }) }];
  }
  const moved = endToRail3(facts, id, '+', use);
  return [
    ...(moved ? [{ ...moved, safe: false }] : []),
    { title: 'Answer: its lines are high at 3.3 V', safe: false, edit: (plan) => setSettings(plan, id, { level: '3v3' }) },
  ];
}
