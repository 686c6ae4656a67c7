import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import type { Edit, End, Plan } from '../../plan/types.ts';
import { beside, end, farEnd, movedEnd, newPart, newWire, onlyWire, railEnd, SHORT_M, type as typeIn } from '../build.ts';
import { amps, called, defineRule, part, verdicts, wire } from '../defineRule.ts';
import { type PinUse, pinName, pinUses } from '../pins.ts';
import { converters } from '../rails.ts';
import { grounded, netAt, partsOn, railV } from '../trace.ts';
import type { Repair } from '../types.ts';

const { fine, found } = verdicts('load-on-pin', 'E11');
/** A coil of low samples has this share of its printed resistance. */
const COIL_LEAST = 0.9;

export const loadOnPin = defineRule({
  id: 'load-on-pin',
  code: 'E11',
  level: 'hazard',
  title: 'A coil or load hangs on a pin',
  why: 'A pin gives some milliamps at 3.3 V; a coil wants a hundred at 12 V. And when a coil is switched off it answers with a hundred volts and more, straight into the chip.',
  source: { text: 'Board maker’s pin tables: at most 16 or 8 mA a pin (read); coil spikes from practice', grade: 'data sheet' },
  needs: 'graph',
  always: true,
  explains: [
    'vehicle-voltage-at-pin',
    'pin-over-voltage',
    'coil-without-spike-killer',
    'pin-current-too-high',
    'coil-will-not-pull-in',
    'output-wakes-at-power-up',
  ],
  check: (facts) =>
    pinUses(facts).map((use) => {
      const subject = wire(use.wire.id);
      const load = loadOn(facts, use);
      if (!load) return fine(subject);
      return found({
        level: 'hazard',
        subject,
        related: [part(load.view.part.id), part(use.computer.part.id)],
        what: `${called(load.view)} (${amps(load.amp)}${load.coil ? ', a coil' : ''}) hangs on ${pinName(use)}, which gives ${amps(use.logic.driveMaxA)} at its strongest.`,
        todo: `Let a low-side driver switch it${load.coil ? ', with a diode across the coil' : ''}.`,
        figures: [
          { label: 'it takes', value: load.amp, unit: 'A' },
          { label: 'the pin gives', value: use.logic.driveMaxA, unit: 'A' },
        ],
      });
    }),
  repair: (finding, facts) => {
    const use = pinUses(facts).find((u) => u.wire.id === finding.subject.id);
    const load = use && loadOn(facts, use);
    return use && load?.coil ? driverBetween(facts, use, load) : [];
  },
});

interface PinLoad {
  readonly view: PartView;
  readonly amp: number;
  readonly coil: boolean;
  readonly terminal: string;
}

/** The coil, or the supply of something hungry, that the pin sees through no more than small resistors. */
function loadOn(facts: Facts, use: PinUse): PinLoad | null {
  for (const net of use.nets) {
    if (railV(facts, net) !== null || grounded(facts, net)) continue;
    for (const { view, terminal } of partsOn(facts, net)) {
      if (view === use.computer) continue;
      if (view.kind.kind === 'relay' && (terminal === '85' || terminal === '86')) {
        const volt = Math.max(facts.corners.hiV, view.s.num('coilV'));
        return { view, terminal, coil: true, amp: volt / (COIL_LEAST * view.s.num('coilOhm')) };
      }
      const load = view.facts.loads?.find((l) => l.plus === terminal || (l.minus === terminal && view.kind.kind !== 'computer'));
      if (load && load.peakA > use.logic.driveMaxA) return { view, terminal, coil: false, amp: load.peakA };
    }
  }
  return null;
}

/** Where the coil's other end is: at a rail already, at ground, or elsewhere. */
function driverBetween(facts: Facts, use: PinUse, load: PinLoad): Repair[] {
  if (use.wires.length !== 1 || !use.wires[0]) return [];
  const id = load.view.part.id;
  const other = load.terminal === '85' ? '86' : '85';
  const otherNet = netAt(facts, load.view, other);
  const supply = railV(facts, otherNet);
  const direct = [use.wire.from, use.wire.to].some((e) => e.part === id && e.terminal === load.terminal);
  if (!direct) return [];
  if (supply !== null && supply >= load.view.s.num('coilV') * 0.75) {
    return [repair((plan) => between(plan, use, id, load.terminal, null))];
  }
  // The coil's other end goes to ground: turn it to a supply behind a fuse, the converter's input.
  const input = converters(facts).find((c) => (railV(facts, facts.netOf(c.inKey)) ?? 0) >= facts.plan.vehicle.systemV);
  if (!grounded(facts, otherNet) || !input || load.view.s.num('coilV') !== facts.plan.vehicle.systemV || !onlyWire(facts.plan, id, other)) return [];
  return [repair((plan) => between(plan, use, id, load.terminal, { low: other, plus: end(input.view.part.id, input.load.plus) }))];
}

function repair(edit: (plan: Plan) => Edit | null): Repair {
  return { title: 'Put a low-side driver between the pin and the coil', safe: false, edit };
}

/**
 * The pin's wire moves from the coil to a driver, whose output takes the coil's low side. `turned`: the coil's end at
 * ground goes to a supply instead, and that end is the positive one from now on.
 */
function between(plan: Plan, use: PinUse, relay: string, terminal: string, turned: { readonly low: string; readonly plus: End } | null): Edit | null {
  const row = plan.parts[relay];
  const pinWire = plan.wires[use.wire.id];
  const zero = railEnd(plan, use.computer.part.id, 'GND', use.cell.pin);
  if (!row || !pinWire || !zero) return null;
  const draft = new Draft(plan);
  const driver = newPart(draft, { kind: 'low-side-driver', ...beside(row, -140, 20), name: 'Coil driver' });
  draft.setWire(movedEnd(pinWire, end(relay, terminal), end(driver, 'in'), true));
  newWire(draft, end(driver, 'out'), end(relay, terminal), { lengthM: SHORT_M });
  newWire(draft, end(driver, 'gnd'), zero);
  const plus = turned ? turned.low : terminal === '85' ? '86' : '85';
  if (turned) {
    const old = onlyWire(plan, relay, turned.low);
    if (!old) return null;
    draft.setWire(movedEnd(old, farEnd(old, relay), turned.plus));
  }
  if (plus === '86') typeIn(draft, relay, { suppression: 'diode' });
  else {
    typeIn(draft, relay, { suppression: 'none' });
    const diode = newPart(draft, { kind: 'diode', ...beside(row, 20, 100), name: 'Coil diode', settings: { type: '1n4007' } });
    newWire(draft, end(diode, 'K'), end(relay, plus), { lengthM: SHORT_M });
    newWire(draft, end(diode, 'A'), end(relay, terminal), { lengthM: SHORT_M });
  }
  return draft.edit('repair.apply', 'Driver for a coil');
}
