import type { Facts, PartView } from '../../analysis/factsTypes.ts';
import { setSettings } from '../../plan/partEdits.ts';
import type { Line } from '../../plan/types.ts';
import { DIMMER_HZ, DIMMER_PERIODS, LAMP_FILTER_S } from '../../trade/keyEvents.ts';
import { nearestPreferred } from '../../trade/preferred.ts';
import { onlyWire } from '../build.ts';
import { called, defineRule, part, plain, verdicts, wire } from '../defineRule.ts';
import { filterPin } from '../filterPin.ts';
import { IN_LINE_OHM, moversOf, type PinUse, parallelOhm, pinName, pinUses, pullsOn } from '../pins.ts';
import { sensors } from '../sensing.ts';
import { grounded, isResistor, netAt, waysFrom } from '../trace.ts';
import type { Repair, Subject, Verdict } from '../types.ts';

const { fine, found } = verdicts('lamp-pulses-taken-for-signal', 'D9');
/** Lamp lines: what the vehicle does to them. */
const LAMPS: Readonly<Partial<Record<Line, 'bulb' | 'dimmed'>>> = { reverse: 'bulb', '58': 'dimmed' };
/** What a program usually waits for, s (common practice). */
const USUAL_S = 0.05;

export const lampPulsesTakenForSignal = defineRule({
  id: 'lamp-pulses-taken-for-signal',
  code: 'D9',
  level: 'fault',
  title: 'Lamp test pulses or dimming taken for a signal',
  why: 'Vehicles feel for their bulbs with short pulses, and dim lamps by switching them fast. A fast input sees each pulse as a press.',
  source: { text: 'Test pulses of 0.1 to 5 ms (from memory); dimmers of 80 to 400 Hz and the filter times from practice', grade: "fitters' habit" },
  needs: 'graph',
  limits: [
    {
      key: 'lampFilterS',
      title: 'A lamp line must hold before it is believed',
      unit: 's',
      value: LAMP_FILTER_S,
      least: 0.001,
      most: 2,
      basis: 'four times the longest test pulse',
    },
  ],
  check: (facts) => onLamps(facts).map((s) => judge(facts, s)),
  repair: (finding, facts) => {
    const lamp = onLamps(facts).find((l) => l.subject.id === finding.subject.id);
    return lamp ? repairs(facts, lamp) : [];
  },
});

interface LampSense {
  /** What watches the lamp line: an optocoupler, or the pin's wire where resistors bring the line to it. */
  readonly subject: Subject;
  readonly name: string;
  readonly use: PinUse;
  readonly feed: PartView;
  readonly needS: number;
  readonly dimmed: boolean;
}

/** Everything that watches a lamp line for a computer. */
function onLamps(facts: Facts): LampSense[] {
  const byOpto = sensors(facts).flatMap((sensor): LampSense[] => {
    const { led, output, opto } = sensor;
    const subject = part(opto.part.id);
    return led && output ? lampSense(facts, { subject, name: called(opto), use: output.use, feed: led.supply.view }, led.supply.source.line) : [];
  });
  const taken = new Set(byOpto.map((l) => l.use));
  const straight = pinUses(facts).flatMap((use) => {
    if (!use.mode.startsWith('in') || taken.has(use)) return [];
    const { view, source } = facts.sourcesFor(use.key).find((s) => s.source.kind === 'feed' && s.source.line && LAMPS[s.source.line]) ?? {};
    return view ? lampSense(facts, { subject: wire(use.wire.id), name: pinName(use), use, feed: view }, source?.line) : [];
  });
  return [...byOpto, ...straight];
}

function lampSense(facts: Facts, at: Pick<LampSense, 'subject' | 'name' | 'use' | 'feed'>, line: Line | undefined): LampSense[] {
  const what = line && LAMPS[line];
  if (!what) return [];
  const dimmed = what === 'dimmed';
  const needS = Math.max(facts.threshold('lampFilterS', LAMP_FILTER_S), dimmed ? DIMMER_PERIODS / DIMMER_HZ.least : 0);
  return [{ ...at, needS, dimmed }];
}

function judge(facts: Facts, lamp: LampSense): Verdict {
  const { subject, name, use, feed, needS, dimmed } = lamp;
  const { computer, gpio } = use;
  const watches = Math.round(computer.s.num('senseGpio')) === gpio;
  const filterS = Math.max(computer.s.num(watches ? 'filterS' : 'inputFilterS'), circuitS(facts, use));
  if (filterS >= needS) return fine(subject);
  const waits = filterS === 0 ? 'believes every pulse' : `waits ${plain(1e3 * filterS)} ms`;
  const who = subject.kind === 'part' ? `${pinName(use)} of ${called(computer)}` : called(computer);
  return found({
    level: 'fault',
    subject,
    related: [part(feed.part.id), part(computer.part.id)],
    what: `${name} watches ${called(feed)}, ${dimmed ? 'which may be dimmed by fast switching' : 'on which the vehicle feels for its bulb with short pulses'}; ${who} ${waits} and should wait ${plain(1e3 * needS)} ms.`,
    todo: `Let the program look again after ${plain(1e3 * waitFor(lamp))} ms, or put a resistor and a capacitor at the pin.`,
    figures: [
      { label: 'waits', value: filterS, unit: 's' },
      { label: 'should wait', value: needS, unit: 's' },
    ],
  });
}

/** What a program is told to wait: the usual time, or longer where more is needed. */
function waitFor({ needS }: LampSense): number {
  return Math.max(USUAL_S, needS);
}

/** Time constant of a resistor in line and capacitors to 0 V at the pin, s; 0 where there is no such filter. */
function circuitS(facts: Facts, use: PinUse): number {
  const pin = netAt(facts, use.computer, `${use.cell.pin}`);
  const farad = facts.ofKind('capacitor').reduce((sum, c) => {
    const [a, b] = [netAt(facts, c, '+'), netAt(facts, c, '-')];
    return (a === pin && grounded(facts, b)) || (b === pin && grounded(facts, a)) ? sum + c.s.num('farad') : sum;
  }, 0);
  if (farad === 0) return 0;
  const ways = waysFrom(
    facts,
    pin,
    (h) => isResistor(h) && h.ohm <= IN_LINE_OHM,
    () => false,
  );
  const inLine = Math.max(0, ...[...ways].filter(([net]) => use.nets.has(net)).map(([, way]) => way.ohm));
  // A divider fills the capacitor over its two resistors side by side; an optocoupler pulls it down at once.
  const divider = moversOf(facts, use).length > 0 ? 0 : besides(facts, use);
  return farad * Math.max(inLine, divider);
}

/** Resistors from the pin to its rails side by side, at their least, ohm; 0 where there are none. */
function besides(facts: Facts, use: PinUse): number {
  const ohm = parallelOhm(
    pullsOn(facts, use.nets).map((p) => p.view),
    'least',
  );
  return Number.isFinite(ohm) ? ohm : 0;
}

function repairs(facts: Facts, lamp: LampSense): Repair[] {
  const { computer, gpio } = lamp.use;
  const key = Math.round(computer.s.num('senseGpio')) === gpio ? 'filterS' : 'inputFilterS';
  const waitS = waitFor(lamp);
  const program: Repair = {
    title: `Let the program wait ${plain(1e3 * waitS)} ms before it believes an input`,
    safe: true,
    edit: (plan) => setSettings(plan, computer.part.id, { [key]: waitS }),
  };
  return [program, ...circuitRepair(facts, lamp)];
}

/** A resistor into the pin's wire and a capacitor from the pin to 0 V, where the pin has neither yet. */
function circuitRepair(facts: Facts, { use, needS }: LampSense): Repair[] {
  const { computer, cell, nets } = use;
  if (!onlyWire(facts.plan, computer.part.id, `${cell.pin}`) || nets.size > 1 || circuitS(facts, use) > 0) return [];
  const farad = nearestPreferred(needS / IN_LINE_OHM, 'E6', 'up');
  return [
    {
      title: `Filter the pin with 4.7 kΩ and ${plain(1e6 * farad)} µF`,
      safe: false,
      edit: (plan) => filterPin(plan, computer.part.id, cell.pin, IN_LINE_OHM, farad),
    },
  ];
}
