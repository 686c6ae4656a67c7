import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { Draft } from '../../plan/draft.ts';
import { setSettings } from '../../plan/partEdits.ts';
import type { Line } from '../../plan/types.ts';
import { LED_LAMP_REST } from '../../trade/lamps.ts';
import { RAIL3 } from '../../trade/logic.ts';
import { OPTO_VF_MIN_V } from '../../trade/optocouplers.ts';
import { RESISTOR_WATTS, SERIES } from '../../trade/preferred.ts';
import { beside, end, farEnd, groundEnd, newPart, newWire, onlyWire, SHORT_M } from '../build.ts';
import { amps, called, defineRule, ohms, part, verdicts, volts, wire } from '../defineRule.ts';
import { moversOf, type PinUse, type Pull, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { type LedCircuit, type Output, type Sensor, sensors } from '../sensing.ts';
import { grounded, netAt } from '../trace.ts';
import type { Repair, Verdict } from '../types.ts';

const { fine, found, unknown } = verdicts('off-line-not-at-zero', 'D10');
const LAMPS: ReadonlySet<Line> = new Set<Line>(['58', 'reverse']);
/** Distance from the threshold, V (common practice, no source). */
const MARGIN_V = 0.1;

export const offLineNotAtZero = defineRule({
  id: 'off-line-not-at-zero',
  code: 'D10',
  level: 'fault',
  title: 'A line that is off is not at zero',
  why: 'LED lamps are felt for all the time: some volts stay on their line while they are off. A sensitive optocoupler needs next to nothing to light, and then reads “on” for ever.',
  source: { text: '6 V behind 1 kΩ on the line of an LED lamp: common practice, no source; transfer ratios of the sheets (read)', grade: "fitters' habit" },
  needs: 'graph',
  check: (facts) => [...onLamps(facts).map((l) => judge(facts, l)), ...divided(facts).map((d) => judgeDivider(facts, d))],
  repair: (finding, facts) => {
    const d = divided(facts).find((x) => x.use.wire.id === finding.subject.id);
    if (d) return [bulbs(d.feed)];
    const l = onLamps(facts).find((x) => x.sensor.opto.part.id === finding.subject.id);
    return l ? loaded(facts, l) : [];
  },
});

interface OnLamp {
  readonly sensor: Sensor;
  readonly led: LedCircuit;
  readonly output: Output;
  readonly feed: PartView;
}

function onLamps(facts: Facts): OnLamp[] {
  return sensors(facts).flatMap((sensor) => {
    const { led, output } = sensor;
    return led && output && led.supply.source.line && LAMPS.has(led.supply.source.line) ? [{ sensor, led, output, feed: led.supply.view }] : [];
  });
}

/** What is left on the line, as volts behind ohms, with the resistors from it to ground that are not its watcher's own. */
function rest(facts: Facts, line: ReadonlySet<number>, own: ReadonlySet<PartView>): { readonly volt: number; readonly ohm: number } {
  const loads = facts.ofKind('resistor').filter((r) => {
    if (own.has(r)) return false;
    const [a, b] = [netAt(facts, r, '1'), netAt(facts, r, '2')];
    return (line.has(a) && grounded(facts, b)) || (line.has(b) && grounded(facts, a));
  });
  const g = loads.reduce((sum, r) => sum + 1 / (r.s.num('ohm') * (1 + r.s.num('tol'))), 0);
  const share = 1 / (1 + LED_LAMP_REST.ohm * g);
  return { volt: LED_LAMP_REST.volt * share, ohm: LED_LAMP_REST.ohm * share };
}

/** The nets of the line that an optocoupler watches. */
function lineOf(facts: Facts, { sensor, led }: OnLamp): ReadonlySet<number> {
  return new Set([...led.above].filter((n) => n !== netAt(facts, sensor.opto, 'A')));
}

interface Divided {
  readonly use: PinUse;
  readonly feed: PartView;
  readonly top: readonly Pull[];
  readonly low: readonly Pull[];
}

/** Pins to which a divider brings a lamp line. */
function divided(facts: Facts): Divided[] {
  return pinUses(facts).flatMap((use) => {
    if (!use.mode.startsWith('in') || moversOf(facts, use).length > 0) return [];
    const feed = facts.sourcesFor(use.key).find((s) => s.source.kind === 'feed' && s.source.line && LAMPS.has(s.source.line))?.view;
    const pulls = pullsOn(facts, use.nets);
    const [top, low] = [pulls.filter((p) => p.volt >= facts.plan.vehicle.systemV), pulls.filter((p) => p.volt === 0)];
    return feed && top.length > 0 && low.length > 0 ? [{ use, feed, top, low }] : [];
  });
}

function judgeDivider(facts: Facts, { use, feed, top, low }: Divided): Verdict {
  const subject = wire(use.wire.id);
  const lamps = feed.s.str('lamps');
  if (lamps === 'unknown') return unknown(subject, `whether ${called(feed)} has bulbs or LED lamps`);
  const { volt, ohm } = rest(facts, new Set(top.map((p) => p.net)), new Set(low.map((p) => p.view)));
  const together = (of: readonly Pull[], side: 'least' | 'most'): number =>
    parallelOhm(
      of.map((p) => p.view),
      side,
    );
  const pinV = (volt * together(low, 'most')) / (together(low, 'most') + together(top, 'least') + ohm);
  if (lamps === 'bulb' || pinV <= use.logic.vIlMaxV) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(feed.part.id), part(use.computer.part.id)],
    what: `${called(feed)} keeps some ${LED_LAMP_REST.volt} V behind ${ohms(LED_LAMP_REST.ohm)} while its LED lamps are off: up to ${volts(pinV)} are left at ${pinName(use)}, which is sure to read low only up to ${volts(use.logic.vIlMaxV)}.`,
    todo: 'Load the line with a resistor to ground, so that a bulb seems to be there.',
    figures: [
      { label: 'at the pin while off', value: pinV, unit: 'V' },
      { label: 'reads low up to', value: use.logic.vIlMaxV, unit: 'V' },
    ],
  });
}

function bulbs(feed: PartView): Repair {
  return { title: 'Answer: its lamps are bulbs', safe: false, edit: (plan) => setSettings(plan, feed.part.id, { lamps: 'bulb' }) };
}

/** Collector current that the rest may bring at its greatest, and that which moves the pin, A. */
function currents(facts: Facts, l: OnLamp): { readonly flowsA: number; readonly movesA: number } {
  const { volt, ohm } = rest(facts, lineOf(facts, l), new Set(l.led.resistors));
  const { use, form, mostPullOhm } = l.output;
  const flowsA = (Math.max(0, volt - l.led.diodeV - OPTO_VF_MIN_V) / (ohm + l.led.leastOhm)) * l.sensor.data.ctrMax;
  const room = form === 'collector' ? RAIL3.minV - use.logic.vIhMinV : use.logic.vIlMaxV;
  return { flowsA, movesA: (room - MARGIN_V) / mostPullOhm };
}

function judge(facts: Facts, l: OnLamp): Verdict {
  const subject = part(l.sensor.opto.part.id);
  const lamps = l.feed.s.str('lamps');
  if (lamps === 'unknown') return unknown(subject, `whether ${called(l.feed)} has bulbs or LED lamps`);
  const { flowsA, movesA } = currents(facts, l);
  if (lamps === 'bulb' || flowsA <= movesA) return fine(subject);
  return found({
    level: 'fault',
    subject,
    related: [part(l.feed.part.id), part(l.output.use.computer.part.id)],
    what: `${called(l.feed)} keeps some ${LED_LAMP_REST.volt} V behind ${ohms(LED_LAMP_REST.ohm)} while its LED lamps are off: ${called(l.sensor.opto)} may then pass ${amps(flowsA)}, and ${amps(movesA)} already move ${pinName(l.output.use)}.`,
    todo: 'Load the line with a resistor to ground, so that a bulb seems to be there.',
    figures: [
      { label: 'passes while off', value: flowsA, unit: 'A' },
      { label: 'moves the pin', value: movesA, unit: 'A' },
    ],
  });
}

/** A resistor from the sensed line to ground, small enough that the LED stays dark and rated for the lamp being on. */
function loaded(facts: Facts, l: OnLamp): Repair[] {
  const first = l.led.resistors[0];
  const outer = first && ['1', '2'].find((t) => l.led.above.has(netAt(facts, first, t)) && netAt(facts, first, t) !== netAt(facts, l.sensor.opto, 'A'));
  const wire = first && outer ? onlyWire(facts.plan, first.part.id, outer) : null;
  if (!first || !wire) return [];
  const dark = (LED_LAMP_REST.ohm * OPTO_VF_MIN_V) / (LED_LAMP_REST.volt - OPTO_VF_MIN_V);
  const ohm = [10, 100].flatMap((d) => SERIES.E12.map((m) => Math.round(m * d))).findLast((r) => 1.05 * r <= dark);
  const watt = ohm === undefined ? undefined : facts.corners.hiV ** 2 / (0.95 * ohm);
  const ratedW = RESISTOR_WATTS.find((w) => watt !== undefined && w >= 2 * watt);
  if (ohm === undefined || ratedW === undefined) return [];
  const line = farEnd(wire, first.part.id);
  return [
    {
      title: `Load the line with ${ohms(ohm)}, ${ratedW} W`,
      safe: false,
      edit: (plan) => {
        const row = plan.parts[first.part.id];
        const ground = row && groundEnd(plan, row.zone);
        if (!row || !ground || !plan.parts[line.part]) return null;
        const draft = new Draft(plan);
        const load = newPart(draft, { kind: 'resistor', ...beside(row, 0, 60), name: 'Line load', settings: { ohm, ratedW } });
        newWire(draft, end(load, '1'), line, { lengthM: SHORT_M });
        newWire(draft, end(load, '2'), ground);
        return draft.edit('repair.apply', 'Load a lamp line');
      },
    },
    bulbs(l.feed),
  ];
}
