import type { Facts, PartView } from '../analysis/factsTypes.ts';
import { boardOf } from '../parts/computer/settings.ts';
import type { Line, VehicleState } from '../plan/types.ts';
import { gpioPin } from '../trade/header.ts';
import { isLive } from '../trade/lines.ts';
import { LOGIC } from '../trade/logic.ts';
import { called } from './defineRule.ts';
import { type Sensor, sensors } from './sensing.ts';

/** An LED with this much current counts as lit, A. */
const LIT_A = 0.3e-3;

/** How one computer watches the key. */
export interface KeySense {
  readonly computer: PartView;
  readonly gpio: number;
  /** The optocoupler on that pin, or null when something else moves it. */
  readonly sensor: Sensor | null;
  /** The vehicle's line behind it and the feed that taps it; null when not known. */
  readonly line: Line | null;
  readonly feed: PartView | null;
}

/** Lines that follow something else than the key, and what. */
export const OTHER_THINGS: Readonly<Partial<Record<Line, string>>> = { '58': 'the lamp switch', reverse: 'the reverse gear', '50': 'the starter' };

/** Does a pin of the computer watch the key, and is something joined to it? */
export function watchesKey(facts: Facts, computer: PartView): boolean {
  const gpio = Math.round(computer.s.num('senseGpio'));
  return gpio > 0 && facts.isWired(`${computer.part.id}.${gpioPin(gpio).pin}`);
}

/** Every computer that watches the key, with what it watches. */
export function keySenses(facts: Facts): readonly KeySense[] {
  return facts
    .ofKind('computer')
    .filter((computer) => watchesKey(facts, computer))
    .map((computer) => {
      const gpio = Math.round(computer.s.num('senseGpio'));
      const sensor = sensors(facts).find((s) => s.output?.use.computer === computer && s.output.use.gpio === gpio) ?? null;
      const supply = sensor?.led?.supply;
      if (supply?.vehicle) return { computer, gpio, sensor, line: supply.source.line ?? '30', feed: supply.view };
      const over = sensor ? undefined : overResistors(facts, computer, gpio);
      return { computer, gpio, sensor, line: over?.line ?? null, feed: over?.feed ?? null };
    });
}

/** The vehicle's line that resistors bring to a pin. */
function overResistors(facts: Facts, computer: PartView, gpio: number): { readonly line: Line; readonly feed: PartView } | undefined {
  const found = facts.sourcesFor(`${computer.part.id}.${gpioPin(gpio).pin}`).find((s) => s.source.kind === 'feed');
  return found && { line: found.source.line ?? '30', feed: found.view };
}

/** What watches the key, as a finding calls it. */
export function watcher({ computer, gpio, sensor }: KeySense): string {
  return sensor ? called(sensor.opto) : `GPIO ${gpio} of ${called(computer)}`;
}

/**
 * Does the pin hear the line in a state? By the LED of its optocoupler, else by its own volts. A computer without power pulls
 * its pins down whatever the line does: then the line itself tells. Null when no line is known.
 */
export function hears(facts: Facts, { computer, gpio, sensor, line }: KeySense, state: VehicleState): boolean | null {
  if (line === null) return null;
  if (sensor) return isLit(facts, sensor, line, state);
  const on = facts.deviceOn(computer.part.id, 'powered', state, 'typical');
  const volt = on ? facts.across(`${computer.part.id}.${gpioPin(gpio).pin}`, `${computer.part.id}.6`, state, 'typical') : null;
  return volt === null ? isLive(line, state) : volt > LOGIC[boardOf(computer.s).logic].vIlMaxV;
}

/** Is a sensor's LED lit in a state? Read from the solved plan, else from what the line does. */
export function isLit(facts: Facts, sensor: Sensor, line: Line, state: VehicleState): boolean {
  const amp = facts.elementA(sensor.opto.part.id, 'opto', state, 'typical', 'led');
  return amp === null ? isLive(line, state) : amp > LIT_A;
}
