import type { Facts } from '../../analysis/factsTypes.ts';
import { wiresOn } from '../../plan/connect.ts';
import { setSettings } from '../../plan/partEdits.ts';
import { splitWire } from '../../plan/wireEdits.ts';
import { ledMaxA } from '../../trade/optocouplers.ts';
import { farEnd, SHORT_M } from '../build.ts';
import { amps, called, defineRule, ohms, part, verdicts, volts, wire } from '../defineRule.ts';
import { type LedCircuit, type Sensor, sensors } from '../sensing.ts';
import { largestOhm, ledPeaks } from '../sensingChoice.ts';
import { joinedWithout } from '../trace.ts';
import type { Repair, Subject, Verdict } from '../types.ts';

const { fine, found } = verdicts('sense-led-overdriven', 'D3');

export const senseLedOverdriven = defineRule({
  id: 'sense-led-overdriven',
  code: 'D3',
  level: 'hazard',
  title: 'Too much current through the sensor’s LED',
  why: 'The LED inside the key sensor ages fast above its limit, and that limit falls as it gets hot. A load dump, when a battery lead comes off with the engine running, can end it at once.',
  source: { text: 'Greatest LED current of the sheets; 817: 50 mA, about 20 mA at 85 °C (curve read by eye); load dump of ISO 16750-2', grade: 'data sheet' },
  needs: 'graph',
  explains: ['short-would-not-blow', 'wire-overloaded', 'return-too-thin', 'wire-fuse-too-big', 'fuse-too-small'],
  check: (facts) => sensors(facts).flatMap((sensor) => (sensor.led ? [judge(facts, sensor)] : [])),
  repair: (finding, facts) => {
    const sensor = sensors(facts).find((s) => s.opto.part.id === finding.subject.id);
    const ohm = sensor && largestOhm(facts, sensor.opto);
    if (!sensor?.led || !ohm) return [];
    const [only, ...more] = sensor.led.resistors;
    if (more.length > 0) return [];
    if (only)
      return ohm > only.s.num('ohm')
        ? [{ title: `Make ${called(only)} ${ohms(ohm)}`, safe: true, edit: (plan) => setSettings(plan, only.part.id, { ohm }) }]
        : [];
    return cutIn(facts, sensor, ohm);
  },
});

/** Fuses and wires that nothing but this LED fills. */
function alongLed(facts: Facts, led: LedCircuit): Subject[] {
  const wires = [...led.above, ...led.below].flatMap((net) => facts.netWires(net)).filter((w) => w.owner === 'build');
  return [...led.hops.flatMap((h) => h.views.map((v) => part(v.part.id))), ...wires.map((w) => wire(w.id))];
}

/** Beyond this many times what it stands nobody asks for the figure. */
const TIMES = 100;

function judge(facts: Facts, sensor: Sensor): Verdict {
  const led = sensor.led!;
  const subject = part(sensor.opto.part.id);
  const { steadyA, dumpA, dumpV } = ledPeaks(facts, sensor, led.leastOhm);
  const allowedA = ledMaxA(sensor.data, sensor.opto.maxC);
  const inDump = dumpA > sensor.data.maxA;
  const beyond = dumpA > TIMES * sensor.data.maxA;
  if (steadyA <= allowedA && !inDump) return fine(subject);
  const related = led.resistors.map((r) => part(r.part.id));
  if (led.resistors.length === 0) {
    return found({
      level: 'hazard',
      subject,
      related: [part(led.supply.view.part.id), ...alongLed(facts, led)],
      floods: true,
      what: `${called(led.supply.view)} reaches the LED of ${called(sensor.opto)} with no resistor on the way, up to ${volts(led.supply.hiV)} on a part that drops ${sensor.data.vFTypV} V and stands ${amps(sensor.data.maxA)}.`,
      todo: 'Put a resistor in line with the LED, close to the tap.',
      figures: [{ label: 'LED stands', value: sensor.data.maxA, unit: 'A' }],
      state: 'RUN_CHARGING',
      band: 'high',
    });
  }
  return found({
    level: inDump ? 'hazard' : 'fault',
    subject,
    related,
    what: inDump
      ? `In a load dump of ${dumpV} V the LED of ${called(sensor.opto)} ${beyond ? `would get more than ${TIMES} times the ${amps(sensor.data.maxA)} that it stands: it is gone at once` : `gets ${amps(dumpA)}; it stands ${amps(sensor.data.maxA)}`}.`
      : `At ${volts(led.supply.hiV)} the LED of ${called(sensor.opto)} gets ${amps(steadyA)}; at ${sensor.opto.maxC} °C it stands ${amps(allowedA)}.`,
    todo: 'Fit a larger sense resistor, or clamp the line ahead of it.',
    figures: [
      { label: 'LED current', value: steadyA, unit: 'A' },
      { label: 'LED stands', value: allowedA, unit: 'A' },
      ...(beyond ? [] : [{ label: 'LED current in a load dump', value: dumpA, unit: 'A' }]),
      { label: 'LED stands for a moment', value: sensor.data.maxA, unit: 'A' },
    ],
    state: 'RUN_CHARGING',
    band: 'high',
  });
}

const ACROSS: ReadonlySet<string> = new Set(['diode', 'capacitor', 'led']);

/** A resistor into the only wire at the anode, at the end towards the line. */
function cutIn(facts: Facts, sensor: Sensor, ohm: number): Repair[] {
  if (sensor.led!.hops.some((h) => h.link.type === 'diode')) return [];
  // What lies across the LED hangs on the same terminal and brings no current.
  const [wire, ...more] = wiresOn(facts.plan, sensor.opto.part.id, 'A').filter((w) => !ACROSS.has(facts.plan.parts[farEnd(w, sensor.opto.part.id).part]!.kind));
  if (!wire || more.length > 0 || joinedWithout(facts, `${sensor.opto.part.id}.A`, sensor.led!.supply.key, wire.id)) return [];
  const atStart = wire.to.part === sensor.opto.part.id;
  const far = facts.parts.get(atStart ? wire.from.part : wire.to.part)!.part;
  const lengthM = facts.wireLengthM(wire.id);
  const part = {
    kind: 'resistor',
    zone: far.zone,
    x: far.x + 150,
    y: far.y + 60,
    name: 'Sense resistor',
    settings: { ohm, ratedW: facts.plan.vehicle.systemV === 24 ? 0.5 : 0.25 },
  };
  const [a, b] = atStart ? (['1', '2'] as const) : (['2', '1'] as const);
  return [
    {
      title: `Put ${ohms(ohm)} in line, close to the tap`,
      safe: true,
      edit: (plan) =>
        splitWire(plan, wire.id, part, a, b, wire.lengthM === undefined && !atStart ? undefined : atStart ? SHORT_M : Math.max(SHORT_M, lengthM - SHORT_M))
          .edit,
    },
  ];
}
