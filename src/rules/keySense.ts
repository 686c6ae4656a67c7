import type { Facts, PartView } from '../analysis/factsTypes.ts';
import type { Line, VehicleState } from '../plan/types.ts';
import { gpioPin } from '../trade/header.ts';
import { isLive } from '../trade/lines.ts';
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
      return supply?.vehicle
        ? { computer, gpio, sensor, line: supply.source.line ?? '30', feed: supply.view }
        : { computer, gpio, sensor, line: null, feed: null };
    });
}

/** Is a sensor's LED lit in a state? Read from the solved plan, else from what the line does. */
export function isLit(facts: Facts, sensor: Sensor, line: Line, state: VehicleState): boolean {
  const amp = facts.elementA(sensor.opto.part.id, 'opto', state, 'typical', 'led');
  return amp === null ? isLive(line, state) : amp > LIT_A;
}
