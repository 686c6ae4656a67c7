import type { Facts } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { setSettings } from '../../plan/partEdits.ts';
import type { Edit, Plan, Values } from '../../plan/types.ts';
import { nearestPreferred } from '../../trade/preferred.ts';
import { beside, end, groundEnd, movedEnd, newPart, newWire, onlyWire, SHORT_M } from '../build.ts';
import { amps, called, defineRule, ohms, part, plain, two, verdicts } from '../defineRule.ts';
import { converters } from '../rails.ts';
import { bridge, CLOSERS, type Surge, surges } from '../switchOnSurge.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found } = verdicts('surge-welds-contact', 'C10');
/** Ratings that are on sale, A. */
const RATINGS_A: readonly number[] = [5, 10, 16, 20, 30, 40, 70];
/** A constant load starts behind a resistor only well below V² / 4R (calculated; half again in hand). */
const STARTS = { quarters: 4, inHand: 1.5 } as const;
/** The resistor takes the whole of a filling once, and the load for the moment until the contact closes. */
const PULSE_W = 5;

export const surgeWeldsContact = defineRule({
  id: 'surge-welds-contact',
  code: 'C10',
  level: 'fault',
  title: 'Capacitor surge welds the switch',
  why: 'An empty capacitor takes whatever the wires let through at the moment of switching on: a hundred amps for a millisecond. It melts a spot of the contact, and one day the switch stays closed.',
  source: { text: 'Peak V / R; a relay makes ten times, a rocker three times its rating: practice, no single source', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => surges(facts).map(judge),
  repair: (finding, facts) => {
    const s = surges(facts).find((x) => x.contact.part.id === finding.subject.id);
    return s ? [...stronger(s), ...precharge(facts, s)] : [];
  },
});

function judge(s: Surge): Verdict {
  const subject = part(s.contact.part.id);
  if (s.peakA <= s.makeA) return fine(subject);
  const { times, setting } = CLOSERS[s.contact.kind.kind]!;
  return found({
    level: 'fault',
    subject,
    related: s.capacitors.map((c) => part(c.part.id)),
    what: `Each time ${called(s.contact)} closes, the ${plain(1e6 * s.farad)} µF behind it take ${amps(s.peakA)} through ${two(s.loopOhm)} Ω; a contact of ${plain(s.contact.s.num(setting))} A should make ${amps(s.makeA)} at the most (${times} times).`,
    todo: 'Fill them over a resistor that a relay bridges afterwards, or switch with a stronger contact.',
    figures: [
      { label: 'surge', value: s.peakA, unit: 'A' },
      { label: 'may make', value: s.makeA, unit: 'A' },
      { label: 'loop', value: s.loopOhm, unit: 'Ω' },
    ],
  });
}

function stronger(s: Surge): Repair[] {
  const { times, setting } = CLOSERS[s.contact.kind.kind]!;
  const rating = RATINGS_A.find((a) => times * a >= s.peakA);
  if (rating === undefined || rating <= s.contact.s.num(setting)) return [];
  return [{ title: `Fit one for ${rating} A`, safe: false, edit: (plan) => setSettings(plan, s.contact.part.id, { [setting]: rating }) }];
}

/**
 * A resistor behind the contact, bridged by a relay whose coil waits until the capacitors are filled. Small enough for the
 * converter to start behind it, should the relay come late.
 */
function precharge(facts: Facts, s: Surge): Repair[] {
  const wire = onlyWire(facts.plan, s.contact.part.id, s.outTerminal);
  if (!wire || bridge(facts, s.contact) !== null) return [];
  const watt = converters(facts).reduce((sum, c) => sum + inputW(facts, c.view.part.id, c.inKey, `${c.view.part.id}.${c.load.minus}`), 0);
  const least = s.volt / s.makeA - s.loopOhm;
  const most = facts.corners.loV ** 2 / (STARTS.quarters * STARTS.inHand * Math.max(watt, 1));
  const ohm = nearestPreferred(Math.max(least, 0.1), 'E12', 'up');
  if (ohm > most) return [];
  return [
    {
      title: `Fill over ${ohms(ohm)}, bridged by a relay once full`,
      safe: false,
      edit: (plan) => prechargeEdit(plan, s, wire.id, ohm),
    },
  ];
}

function inputW(facts: Facts, id: string, plus: string, minus: string): number {
  return Math.abs((facts.designAcross(plus, minus) ?? 0) * (facts.designElementA(id, 'conv', 'in') ?? facts.designElementA(id, 'reg', 'in') ?? 0));
}

function prechargeEdit(plan: Plan, s: Surge, wireId: string, ohm: number): Edit | null {
  const row = plan.parts[s.contact.part.id];
  const wire = plan.wires[wireId];
  const ground = row && groundEnd(plan, row.zone);
  if (!row || !wire || !ground) return null;
  const large = plan.vehicle.systemV === 24;
  const settings: Values = large
    ? { coilV: 24, coilOhm: 350, pullInV: 14.8, dropOutV: 2.4, dropOutMaxV: 9.6, contactA: 20, suppression: 'resistor' }
    : { suppression: 'resistor' };
  const draft = new Draft(plan);
  const relay = newPart(draft, { kind: 'relay', ...beside(row, 160, 0), name: 'Bridge', settings });
  const resistor = newPart(draft, { kind: 'resistor', ...beside(row, 160, -60), name: 'Filling resistor', settings: { ohm, ratedW: PULSE_W } });
  const from = end(row.id, s.outTerminal);
  draft.setWire(movedEnd(wire, from, end(relay, '87'), true));
  newWire(draft, from, end(relay, '30'), { lengthM: SHORT_M });
  newWire(draft, end(resistor, '1'), end(relay, '30'), { lengthM: SHORT_M });
  newWire(draft, end(resistor, '2'), end(relay, '87'), { lengthM: SHORT_M });
  newWire(draft, end(relay, '86'), end(relay, '87'), { lengthM: SHORT_M });
  newWire(draft, end(relay, '85'), ground);
  return draft.edit('repair.apply', 'Fill over a resistor');
}
