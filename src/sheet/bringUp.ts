import type { PartView } from '../analysis/factsTypes.ts';
import { KEY_POSITIONS } from '../analysis/types.ts';
import { wiresOn } from '../plan/connect.ts';
import type { Id, Wire } from '../plan/types.ts';
import { ohmPerM, TERMINATION_OHM } from '../trade/conductors.ts';
import { supplyV } from '../trade/supply.ts';
import { type Check, pinChecks, sensingChecks, timingChecks } from './bringUpSignals.ts';
import { type Context, numberOf, wireName } from './context.ts';
import { amps, dropVolts, nearVolts, ohms, volts } from './figures.ts';
import { tapRows } from './partRows.ts';

/** One step of fitting and trying, in order. */
export interface Step {
  readonly title: string;
  readonly how: string;
  readonly checks: readonly Check[];
}

/** Filament lamp that stands in for the fuse at the first switching-on, W (common practice, no source). */
const LAMP_W = 5;
/** Stand-in for the computer on a 5 V output, about 1 A. */
const DUMMY_OHM = 5.1;
/** A drop smaller than this is not worth a meter, V. */
const LEAST_DROP_V = 0.005;
const MOST_WIRES = 10;

/** The steps that this plan needs, each with its own computed readings. */
export function bringUp(context: Context): Step[] {
  const steps: Step[] = [
    {
      title: 'Look and pull',
      how: 'Nothing connected. Look at each joint, then pull each crimp: 1 mm² and up holds about 5 kg, 0.22 mm² about 2 kg.',
      checks: [{ measure: 'Every crimp pulled', expected: 'none moves' }],
    },
    {
      title: 'No shorts',
      how: 'Battery negative off, our fuses out, everything unplugged. Meter on ohms; the figure may climb while a capacitor charges.',
      checks: [
        ...converters(context).flatMap(shortChecks),
        ...usedPins(context).map((p) => ({ measure: `${p} to our supply wire`, expected: 'open (above 1 MΩ)' })),
      ],
    },
    {
      title: 'Ground wires',
      how: 'Meter on ohms, its own leads subtracted. A hand meter is coarse here: the true test is the ground drop under load further down.',
      checks: groundChecks(context),
    },
    {
      title: 'Taps, key by key',
      how: 'Battery on, our fuses still out. Measure on the vehicle side of each fuse holder and write the readings into the list of taps.',
      checks: tapRows(context).map((tap) => ({
        measure: `${tap.label}: the six key positions`,
        expected: KEY_POSITIONS.map((k, i) => `${k.key} ${nearVolts(tap.volts[i] ?? Number.NaN)}`).join(', '),
      })),
    },
    {
      title: 'First current, limited',
      how: `A ${context.plan.vehicle.systemV} V ${LAMP_W} W lamp in place of the fuse, computer and displays unplugged, key in Ignition. The lamp may flash and must go dark within a second.`,
      checks: converters(context).flatMap((v) => lampChecks(context, v)),
    },
    {
      title: 'Stand-in load',
      how: `Fuse in, computer still unplugged. Put ${DUMMY_OHM} Ω, 10 W between the far end of the wire and the converter's 0 V; it gets hot.`,
      checks: converters(context).flatMap((v) => dummyChecks(context, v)),
    },
    {
      title: 'Drops under load',
      how: 'Engine running, everything of the build on. Meter on millivolts across each.',
      checks: [...partDrops(context), ...wireDrops(context)],
    },
    {
      title: 'Key sensing',
      how: 'Meter on volts, computer running.',
      checks: sensingChecks(context),
    },
    {
      title: 'Ground drop',
      how: 'Engine, blower and lamps on. One meter lead on the battery negative post.',
      checks: groundDrops(context),
    },
    {
      title: 'What arrives',
      how: 'Measure at the pins of the thing itself, idle and then working hard.',
      checks: arrivalChecks(context),
    },
    { title: 'Pins', how: 'Computer running, key in Ignition.', checks: pinChecks(context) },
    {
      title: 'Start the engine',
      how: 'Meter set to hold its lowest reading.',
      checks: converters(context).flatMap((v) => crankChecks(context, v)),
    },
    {
      title: 'Key off',
      how: 'Stop-watch, three times; the worst counts. Once with the doors shut, once with a door opened at once.',
      checks: timingChecks(context),
    },
    {
      title: 'Parked draw',
      how: 'Vehicle locked and asleep (up to 75 minutes), bonnet latch closed by hand. Clamp or shunt on the battery negative, read before and after pulling our fuse.',
      checks: [{ measure: 'Difference', expected: `${amps(context.results.analysis.parked.buildA)}, give or take 2 mA` }],
    },
    {
      title: 'Sound',
      how: 'Source silent, engine from idle to about 3000 a minute. A whine that stops when the sound lead is pulled is a ground loop.',
      checks: hasSound(context) ? [{ measure: 'Whine', expected: 'none to hear' }] : [],
    },
    {
      title: 'Warmth',
      how: 'Half an hour of running with the panel closed, then touch with the back of a finger.',
      checks: [...converters(context).map((v) => ({ measure: `${v.item} ${v.name}`, expected: 'below 60 °C: can be touched' })), ...resistorHeat(context)],
    },
    {
      title: 'The vehicle as before',
      how: 'Radio on weak stations and satellite reception with our fuse in and out; all lamps, warning lamps and systems.',
      checks: [{ measure: 'Vehicle', expected: 'no difference, no warning lamp' }],
    },
  ];
  return steps.filter((step) => step.checks.length > 0);
}

/** A converter with the terminals that matter here. */
interface Converter {
  readonly id: Id;
  readonly item: string;
  readonly name: string;
  readonly view: PartView;
  readonly in: string;
  readonly gnd: string;
  readonly out: string;
  readonly zero: string;
  readonly setV: number;
  readonly tol: number;
  readonly idleA: number;
}

function converters(context: Context): Converter[] {
  return context.ours.flatMap((view) => {
    const source = view.facts.sources?.find((s) => s.kind === 'converter');
    const input = view.terminals.find((t) => t.flow === 'in' && t.role === 'supply') ?? view.terminals.find((t) => t.id === 'in');
    if (!source || !input) return [];
    const gnd = view.terminals.find((t) => t.role === 'ground' && t.side === input.side) ?? view.terminals.find((t) => t.role === 'ground');
    if (!gnd) return [];
    return [
      {
        id: view.part.id,
        item: view.item,
        name: view.name,
        view,
        in: input.id,
        gnd: gnd.id,
        out: source.terminal,
        zero: source.returns.startsWith('@') ? gnd.id : source.returns,
        setV: numberOf(view, 'setV', source.nominalV),
        tol: numberOf(view, 'setTol', 0),
        idleA: numberOf(view, 'quiescentA', 0),
      },
    ];
  });
}

function shortChecks(c: Converter): Check[] {
  const name = `${c.item} ${c.name}`;
  return [
    { measure: `${name}: ${labelOf(c, c.in)} to ${labelOf(c, c.gnd)}`, expected: 'above 10 kΩ, climbing' },
    { measure: `${name}: ${labelOf(c, c.out)} to ${labelOf(c, c.zero)}`, expected: 'above 1 kΩ' },
    { measure: `${name}: ${labelOf(c, c.out)} to ${labelOf(c, c.in)}`, expected: 'above 10 kΩ' },
  ];
}

function labelOf(c: Converter, terminal: string): string {
  return c.view.terminals.find((t) => t.id === terminal)?.label ?? terminal;
}

function usedPins(context: Context): string[] {
  return context.results.analysis.pins
    .filter((p) => p.gpio !== null && p.wire !== null && context.views.get(p.part)?.part.owner === 'build')
    .map((p) => `${context.label(p.part)}, wire on pin ${p.pin}`);
}

function groundChecks(context: Context): Check[] {
  return context.wires.flatMap((wire) => {
    const report = context.results.analysis.wires[wire.id];
    if (report?.role !== 'ground' || report.worstA < 0.2) return [];
    const ohm = 2 * TERMINATION_OHM.crimp + report.lengthM * ohmPerM(report.areaMm2, 20);
    return [{ measure: `Wire ${wireName(wire)}, end to end`, expected: `${ohms(ohm)}; above 0.2 Ω look for a bad joint` }];
  });
}

function lampChecks(context: Context, c: Converter): Check[] {
  const { systemV, dipLevel } = context.plan.vehicle;
  const lampOhm = systemV ** 2 / LAMP_W;
  const batteryV = supplyV(systemV, 'RUN_STOPPED', dipLevel).typical;
  return [
    {
      measure: `${c.item} ${c.name}: input`,
      expected: `battery less up to ${dropVolts(c.idleA * lampOhm)} (${volts(batteryV - c.idleA * lampOhm)} from ${volts(batteryV)})`,
    },
    { measure: `${c.item} ${c.name}: output`, expected: outputText(c) },
  ];
}

function outputText(c: Converter): string {
  return c.tol > 0 ? `${volts(c.setV)} (${volts(c.setV * (1 - c.tol))} to ${volts(c.setV * (1 + c.tol))})` : volts(c.setV);
}

function dummyChecks(context: Context, c: Converter): Check[] {
  if (c.setV < 4.5 || c.setV > 5.5) return [];
  return wiresOn(context.plan, c.id, c.out).flatMap((wire) => {
    const report = context.results.analysis.wires[wire.id];
    if (wire.owner !== 'build' || !report) return [];
    const wireOhm = 2 * TERMINATION_OHM.crimp + report.lengthM * ohmPerM(report.areaMm2, 20);
    const pathOhm = wireOhm + numberOf(c.view, 'outOhm', 0);
    const v = (c.setV * DUMMY_OHM) / (DUMMY_OHM + pathOhm);
    return [{ measure: `Far end of wire ${wireName(wire)} to ${c.item} ${labelOf(c, c.zero)}`, expected: volts(v) }];
  });
}

/** Groups whose contacts feed something; those of sensing parts are measured elsewhere. */
const FEEDING: ReadonlySet<string> = new Set(['Protect', 'Switch']);

/** Fuses and closed contacts: millivolts across, engine running. */
function partDrops(context: Context): Check[] {
  return context.ours.flatMap((view) =>
    (FEEDING.has(view.kind.group) ? (view.facts.links ?? []) : []).flatMap((link) => {
      if (link.type !== 'fuse' && link.type !== 'contact') return [];
      const v = Math.abs(context.volts(view.part.id, link.a, 'RUN_CHARGING', 'typical') - context.volts(view.part.id, link.b, 'RUN_CHARGING', 'typical'));
      // A large difference is an open contact, not a drop.
      if (!(v < 1)) return [];
      return [{ measure: `${view.item} ${view.name}, across`, expected: `${dropVolts(v)}; twice that and above 50 mV: a bad contact` }];
    }),
  );
}

function wireDrops(context: Context): Check[] {
  const drop = (wire: Wire): number => {
    const [a, b] = [wire.from, wire.to].map((end) => context.volts(end.part, end.terminal, 'RUN_CHARGING', 'typical')) as [number, number];
    return Math.abs(a - b);
  };
  return context.wires
    .map((wire) => ({ wire, v: drop(wire) }))
    .filter(({ v }) => v >= LEAST_DROP_V)
    .sort((a, b) => b.v - a.v)
    .slice(0, MOST_WIRES)
    .map(({ wire, v }) => ({
      measure: `Wire ${wireName(wire)}, end to end`,
      expected: `${dropVolts(v)} at ${amps(Math.abs(context.wireA(wire.id, 'RUN_CHARGING', 'typical')))}`,
    }));
}

function groundDrops(context: Context): Check[] {
  const seen = new Set<string>();
  return context.results.analysis.arrivals.flatMap((arrival) => {
    const key = `${arrival.part}.${arrival.minus}`;
    if (seen.has(key) || arrival.minus.startsWith('@') || context.views.get(arrival.part)?.part.owner !== 'build') return [];
    seen.add(key);
    const v = context.volts(arrival.part, arrival.minus, 'RUN_CHARGING', 'typical');
    return Number.isNaN(v)
      ? []
      : [{ measure: `${context.label(arrival.part)}, 0 V side`, expected: `${dropVolts(Math.abs(v))}; twice that and above 50 mV: a bad ground` }];
  });
}

function arrivalChecks(context: Context): Check[] {
  const running = KEY_POSITIONS.findIndex((k) => k.key === 'Running');
  return context.results.analysis.arrivals.flatMap((a) => {
    if (context.views.get(a.part)?.part.owner !== 'build') return [];
    const typical = a.typical[running] ?? Number.NaN;
    const between = a.worstLow && a.worstHigh ? `; between ${volts(a.worstLow.v)} and ${volts(a.worstHigh.v)} at the worst` : '';
    const window = a.minV !== null && a.maxV !== null ? `; it wants ${volts(a.minV)} to ${volts(a.maxV)}` : '';
    return [{ measure: `${context.label(a.part)}: ${a.label}`, expected: `${volts(typical)}${between}${window}` }];
  });
}

function crankChecks(context: Context, c: Converter): Check[] {
  const across = (plus: string, minus: string): number => context.volts(c.id, plus, 'START', 'low') - context.volts(c.id, minus, 'START', 'low');
  return [
    { measure: `${c.item} ${c.name}: lowest input`, expected: `not below ${volts(across(c.in, c.gnd))}` },
    { measure: `${c.item} ${c.name}: lowest output`, expected: `not below ${volts(across(c.out, c.zero))}` },
  ];
}

function hasSound(context: Context): boolean {
  return context.ours.some((view) => view.terminals.some((t) => t.role === 'audio'));
}

/** Surface of a small resistor above its surroundings, K/W (common practice, no source). */
const RESISTOR_K_PER_W = 150;

function resistorHeat(context: Context): Check[] {
  return context.ours.flatMap((view) => {
    const link = view.facts.links?.find((l) => l.type === 'resistor' && l.ohm !== undefined && l.ohm > 0);
    if (link?.ohm === undefined) return [];
    const v = context.volts(view.part.id, link.a, 'RUN_CHARGING', 'typical') - context.volts(view.part.id, link.b, 'RUN_CHARGING', 'typical');
    const w = v ** 2 / link.ohm;
    if (!(w >= 0.05)) return [];
    return [{ measure: `${view.item} ${view.name}`, expected: `about ${Math.round(w * RESISTOR_K_PER_W)} °C above its surroundings` }];
  });
}
