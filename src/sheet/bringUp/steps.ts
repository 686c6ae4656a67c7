import type { Context } from '../context.ts';
import { amps } from '../figures.ts';
import { tapRows } from '../partRows.ts';
import { converters, crankChecks, DUMMY_OHM, dummyChecks, LAMP_W, lampChecks, shortChecks } from './converters.ts';
import { type Check, pinChecks, sensingChecks, timingChecks } from './signals.ts';
import { arrivalChecks, groundChecks, groundDrops, partDrops, resistorHeat, wireDrops } from './underLoad.ts';

/** One step of fitting and trying, in order. */
export interface Step {
  readonly title: string;
  readonly how: string;
  readonly checks: readonly Check[];
}

/** The steps that this plan needs, each with its own computed readings. */
export function bringUp(context: Context): Step[] {
  if (context.ours.length === 0) return [];
  const steps: Step[] = [
    {
      title: 'Look and pull',
      how: 'Nothing connected. Look at each joint, then pull each crimp: 1 mm² and up holds about 5 kg, 0.22 mm² about 2 kg.',
      checks: [{ measure: 'Every crimp pulled', expected: 'none moves' }],
    },
    {
      title: 'No shorts',
      how: 'Battery negative off, our fuses out, everything unplugged. Meter on ohms; a figure may climb while a capacitor charges.',
      checks: [
        ...converters(context).flatMap(shortChecks),
        ...usedPins(context).map((p) => ({ measure: `${p} to our supply wire`, expected: 'open (above 1 MΩ)' })),
      ],
    },
    {
      title: 'Ground wires',
      how: 'Meter on ohms, its own leads subtracted; above 0.2 Ω look for a bad joint. A hand meter is coarse here: the true test is the ground drop under load.',
      checks: groundChecks(context),
    },
    {
      title: 'Taps, key by key',
      how: 'Battery on, our fuses still out. Measure on the vehicle side of each fuse holder, in all six key positions, and write the readings into the list of taps.',
      checks: tapRows(context).map((tap) => ({ measure: tap.label, expected: 'as in the list of taps' })),
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
      how: 'Engine running, everything of the build on. Meter on millivolts across each; twice the figure and above 50 mV is a bad contact.',
      checks: [...partDrops(context), ...wireDrops(context)],
    },
    {
      title: 'Key sensing',
      how: 'Meter on volts, computer running.',
      checks: sensingChecks(context),
    },
    {
      title: 'Ground drop',
      how: 'Engine, blower and lamps on. One meter lead on the battery negative post; twice the figure and above 50 mV is a bad ground.',
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

function usedPins(context: Context): string[] {
  return context.results.analysis.pins
    .filter((p) => p.gpio !== null && p.wire !== null && context.views.get(p.part)?.part.owner === 'build')
    .map((p) => `${context.label(p.part)}, wire on pin ${p.pin}`);
}

function hasSound(context: Context): boolean {
  return context.ours.some((view) => view.terminals.some((t) => t.role === 'audio'));
}
