import type { Facts } from '../../analysis/factsTypes.ts';
import type { SourceFact } from '../../parts/types.ts';
import { Draft } from '../../plan/draft.ts';
import { PIN_MAX_V } from '../../trade/logic.ts';
import { LEDS, type LedColour } from '../../trade/semiconductors.ts';
import { addSensor, farEnd } from '../build.ts';
import { called, defineRule, ohms, part, verdicts, volts, wire } from '../defineRule.ts';
import { moversOf, nearNets, type PinUse, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { toRail3 } from '../toRail3.ts';
import { grounded, type Hop, isResistor, netAt, partsOn, railV, type Way, waysFrom } from '../trace.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('vehicle-voltage-at-pin', 'D7');
/** From this resistance on the pin's own clamp diodes keep to their current; below it the pin takes what the line gives (fitters' habit). */
const LIMITING_OHM = 10_000;
/** A 5 V rail at its greatest, over nominal. */
const RAIL_OVER = 1.05;
/** A resistor of 5 % at its least (the usual tolerance; common practice, no source). */
const LEAST = 0.95;

export const vehicleVoltageAtPin = defineRule({
  id: 'vehicle-voltage-at-pin',
  code: 'D7',
  level: 'hazard',
  title: 'More volts at a pin than it stands',
  why: 'The computer’s pins are 3.3 V pins. More than 3.6 V pushes current through the chip itself, and one touch of 12 V ends it.',
  source: { text: 'Board maker’s pin page: above 3.3 V will likely destroy the pin (read)', grade: 'data sheet' },
  needs: 'graph',
  always: true,
  explains: ['pin-over-voltage'],
  check: (facts) =>
    pinUses(facts).map((use) => {
      const here = worstWay(facts, use);
      if (!here) return fine(wire(use.wire.id));
      const source = sourceName(facts, here.net);
      const divided = here.atPinV < here.volt;
      const over = here.way.ohm > 0 ? `over ${ohms(here.way.ohm)}${divided ? ', divided by what goes to 0 V' : ''}` : 'with nothing between';
      return found({
        level: 'hazard',
        subject: wire(use.wire.id),
        related: [...new Set([use.computer.part.id, ...here.way.hops.flatMap((h) => h.views.map((v) => v.part.id))])].map(part),
        what: `${source} can put ${volts(here.atPinV)} on ${pinName(use)} ${over}; a pin stands ${PIN_MAX_V} V.`,
        todo:
          here.volt < facts.plan.vehicle.systemV / 2
            ? divided
              ? 'Make the resistor towards the line larger, or the one to 0 V smaller.'
              : 'Take 3.3 V of the computer (pin 1 or 17) for it, or divide the volts down.'
            : 'Put a key sensor (resistor, optocoupler, reverse diode, pull-up) between the line and the pin.',
        figures: [
          { label: 'can reach the pin', value: here.atPinV, unit: 'V' },
          { label: 'pin stands', value: PIN_MAX_V, unit: 'V' },
        ],
        state: 'RUN_CHARGING',
        band: 'high',
      });
    }),
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => u.wire.id === finding.subject.id);
    const here = use && worstWay(facts, use);
    if (!use || !here) return [];
    const volt = railV(facts, here.net) ?? 0;
    if (volt < facts.plan.vehicle.systemV) {
      const moved = toRail3(facts, here.way.hops, use);
      return moved ? [moved] : [];
    }
    return here.way.ohm === 0 ? sensorInstead(use) : [];
  },
});

interface Reach {
  readonly net: number;
  readonly way: Way;
  /** What the line brings, and what is left of it at the pin where a resistor to 0 V divides it, V. */
  readonly volt: number;
  readonly atPinV: number;
}

/** The rail above 3.6 V that reaches the pin over the least resistance, or null. */
function worstWay(facts: Facts, use: PinUse): Reach | null {
  const start = netAt(facts, use.computer, `${use.cell.pin}`);
  const ways = waysFrom(facts, start, passes, (net) => railV(facts, net) !== null || grounded(facts, net));
  const pulled = moversOf(facts, use).length > 0;
  let worst: Reach | null = null;
  for (const [net, way] of ways) {
    const nominal = railV(facts, net);
    if (nominal === null || way.ohm >= LIMITING_OHM) continue;
    // A pull-up on a moved pin is another rule's.
    if (pulled && net !== start && way.hops.every(isResistor)) continue;
    const rail = nominal >= facts.plan.vehicle.systemV ? facts.corners.hiV : nominal * RAIL_OVER;
    const volt = rail - lampsV(way.hops);
    const atPinV = dividedV(facts, use, way, volt);
    if (atPinV <= PIN_MAX_V || clamped(facts, use, way)) continue;
    if (!worst || way.ohm < worst.way.ohm) worst = { net, way, volt, atPinV };
  }
  return worst;
}

/** Against the current: through resistors, contacts, coils and backwards through diodes; never through an optocoupler. */
function passes(hop: Hop): boolean {
  if (hop.views[0]!.kind.kind === 'optocoupler') return false;
  const type = hop.link.type;
  return type === 'fuse' || type === 'contact' || type === 'conductor' || type === 'coil' || isResistor(hop) || (type === 'diode' && !hop.forward);
}

/** What LEDs in line are sure to drop, V. */
function lampsV(hops: readonly Hop[]): number {
  return hops.reduce((sum, h) => sum + (h.views[0]!.kind.kind === 'led' ? LEDS[h.views[0]!.s.str('colour') as LedColour].minV : 0), 0);
}

/** What a line leaves at the pin, with resistors from there to 0 V at their unkind end, V. */
function dividedV(facts: Facts, use: PinUse, way: Way, volt: number): number {
  const down = pullsOn(facts, nearNets(facts, netAt(facts, use.computer, `${use.cell.pin}`))).filter((p) => p.volt === 0);
  if (down.length === 0 || way.ohm === 0) return volt;
  const low = parallelOhm(
    down.map((p) => p.view),
    'most',
  );
  return (volt * low) / (low + way.ohm * LEAST);
}

/** Kept in bounds by a clamp beside the pin. */
function clamped(facts: Facts, use: PinUse, way: Way): boolean {
  const nets = nearNets(facts, netAt(facts, use.computer, `${use.cell.pin}`));
  return [...nets].some((net) =>
    partsOn(facts, net).some(({ view, terminal }) => {
      if (view.kind.kind === 'surge-clamp' && terminal === 'K') return view.s.num('brMaxV') <= PIN_MAX_V;
      if (view.kind.kind !== 'diode' || terminal !== 'A') return false;
      const rail = railV(facts, netAt(facts, view, 'K'));
      return rail !== null && rail < PIN_MAX_V && way.ohm > 0;
    }),
  );
}

/** What makes a rail what it is, a feed of the vehicle before the battery behind it; never the pin that is in danger. */
function sourceName(facts: Facts, net: number): string {
  const rail = railV(facts, net) ?? 0;
  const vehicle = rail >= facts.plan.vehicle.systemV;
  const kinds: readonly SourceFact['kind'][] = vehicle ? ['feed', 'battery', 'store'] : ['converter', 'rail', 'usb', 'store'];
  const able = facts.sourcesFor(facts.netTerminals(net)[0] ?? '').filter((s) => vehicle || s.source.nominalV === rail);
  for (const kind of kinds) {
    const found = able.find((s) => s.source.kind === kind);
    if (found) return called(found.view);
  }
  return `The ${rail} V supply`;
}

/** The pin's wire moves to a new optocoupler, whose LED takes the place on the line. */
function sensorInstead(use: PinUse): Repair[] {
  if (use.wires.length !== 1) return [];
  return [
    {
      title: 'Put a key sensor between the line and the pin',
      safe: true,
      edit: (plan) => {
        const computer = plan.parts[use.computer.part.id];
        const row = plan.wires[use.wire.id];
        if (!computer || !row) return null;
        const draft = new Draft(plan);
        return addSensor(draft, farEnd(row, computer.id), computer, use.cell.pin, row) ? draft.edit('repair.apply', 'Add a key sensor') : null;
      },
    },
  ];
}
