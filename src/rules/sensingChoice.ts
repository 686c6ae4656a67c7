import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { ledMaxA } from '../trade/optocouplers.ts';
import { SERIES } from '../trade/preferred.ts';
import { OPTOS, type OptoFacts, type OptoType } from '../trade/semiconductors.ts';
import { insidePull } from './pins.ts';
import { greatestLedA, leastLedA, neededA, type Output, restingV, type Sensor, sensors, sureA } from './sensing.ts';

/** Usual resistor of a key sensor where its output side is not drawn yet, ohm (fitters' habit). */
const START_OHM = { 12: 2200, 24: 4700 } as const;
/** Decades in which a sense resistor or a pull lies. */
const DECADES = [100, 1000, 10_000, 100_000] as const;
const E12: readonly number[] = DECADES.flatMap((d) => SERIES.E12.map((m) => Math.round(m * d)));
const TOL = 0.05;

/** Largest LED current for ever, and in a load dump, that a sensor's LED gets, A. */
export function ledPeaks(facts: Facts, sensor: Sensor, leastOhm: number): { readonly steadyA: number; readonly dumpA: number; readonly dumpV: number } {
  const { supply } = sensor.led!;
  const dumpV = supply.vehicle ? facts.seenSurgeV(supply.key) : supply.hiV;
  return { steadyA: greatestLedA(supply.hiV, leastOhm), dumpA: greatestLedA(dumpV, leastOhm), dumpV };
}

/** Does the LED stand both? */
export function ledStands(facts: Facts, sensor: Sensor, leastOhm: number): boolean {
  const { steadyA, dumpA } = ledPeaks(facts, sensor, leastOhm);
  return steadyA <= ledMaxA(sensor.data, sensor.opto.maxC) && dumpA <= sensor.data.maxA;
}

/** Is the sensor's output sure of both levels with these figures? */
export function sureOf(
  sensor: Sensor,
  change: { readonly data?: OptoFacts; readonly mostOhm?: number; readonly pull?: { least: number; most: number } },
): boolean {
  const { led, output } = sensor;
  if (!led || !output) return false;
  const data = change.data ?? sensor.data;
  const pull = change.pull ?? { least: output.leastPullOhm, most: output.mostPullOhm };
  const sure = sureA(data, leastLedA(led, data, change.mostOhm ?? led.mostOhm));
  return sure >= neededA(output.form, output.use, pull.least) && restingV(output.form, output.use, data, sensor.opto.maxC, pull.most).holds;
}

/**
 * Largest preferred resistor (E12) with which the sensor's output is still sure and its LED stands every surge; the usual one
 * when the output is not drawn yet. Null when none serves.
 */
export function largestOhm(facts: Facts, opto: PartView): number | null {
  const sensor = sensors(facts).find((s) => s.opto === opto);
  if (!sensor?.led) return null;
  if (!sensor.output) return START_OHM[facts.plan.vehicle.systemV];
  const fits = (ohm: number): boolean => ledStands(facts, sensor, ohm * (1 - TOL)) && drivesWith(sensor, ohm * (1 + TOL));
  return E12.findLast(fits) ?? null;
}

/** Pulls the pin for certain with this resistor; the resting level does not depend on it. */
function drivesWith(sensor: Sensor, mostOhm: number): boolean {
  const { led, output, data } = sensor;
  return sureA(data, leastLedA(led!, data, mostOhm)) >= neededA(output!.form, output!.use, output!.leastPullOhm);
}

/** A single external pull resistor (E12, the pin's own pull off) with which both levels are sure, the smallest first; null when none. */
export function pullOhm(sensor: Sensor): number | null {
  if (!sensor.output) return null;
  const soldered = insidePull({ ...sensor.output.use, mode: 'in' }, sensor.output.form === 'collector' ? 'up' : 'down');
  const both = (a: number, b: number): number => 1 / (1 / a + 1 / b);
  const fits = (ohm: number): boolean => sureOf(sensor, { pull: { least: both(ohm * (1 - TOL), soldered.least), most: both(ohm * (1 + TOL), soldered.most) } });
  // A stiff pull keeps noise out; 10 kohm is the habit.
  return fits(USUAL_PULL_OHM) ? USUAL_PULL_OHM : (E12.find((ohm) => ohm >= LEAST_PULL_OHM && fits(ohm)) ?? null);
}
const USUAL_PULL_OHM = 10_000;
const LEAST_PULL_OHM = 1000;

/** The first type of optocoupler that is sure with everything else as it is; null when none. */
export function betterType(sensor: Sensor): OptoType | null {
  const types = Object.keys(OPTOS) as OptoType[];
  return types.find((t) => OPTOS[t] !== sensor.data && sureOf(sensor, { data: OPTOS[t] })) ?? null;
}

/** Level words for either form. */
export function levels(form: Output['form']): { readonly lit: string; readonly dark: string } {
  return form === 'collector' ? { lit: 'low', dark: 'high' } : { lit: 'high', dark: 'low' };
}
