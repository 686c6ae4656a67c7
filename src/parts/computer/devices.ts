import type { Device, Probe } from '../../circuit/types.ts';
import { BOARD_SUPPLY } from '../../trade/boards.ts';
import { gpioPin, WAKE_GPIO } from '../../trade/header.ts';
import { LOGIC } from '../../trade/logic.ts';
import type { Settings, Situation } from '../types.ts';
import { boardOf, stopS } from './settings.ts';

/** The nodes that all inside hangs on: 5 V, 3.3 V and 0 V are the first header pin of each. */
export const V5 = '2';
export const V33 = '1';
export const V0 = '6';

/** Wakes and losses of power show within milliseconds. */
const FAST_S = 0.005;
/** A restart lets go of what was up before it begins anew, s. */
const RESTART_S = 3 * FAST_S;

/**
 * `powered`: has enough at its 5 V to run. `booted`: has come up since. `stopping`: has believed that the key is off.
 * `halted`: has stopped with its power still there. It looks at the key only once it is up. A stop that began goes on
 * to its end even when the key comes back. One that restarts on key looks at it once more there: it counts as halted and
 * stopping together for the moment in which it decides, and comes up anew.
 */
export function computerDevices(s: Settings, { wired }: Pick<Situation, 'wired'>): Device[] {
  const sense = senseOf(s, wired);
  const canWake = s.str('wakes') === 'gpio3' && Math.round(s.num('powerOffPin')) === 0 && wired(`${gpioPin(WAKE_GPIO).pin}`);
  const { vIlMaxV } = LOGIC[boardOf(s).logic];
  /** At the very end of its stop it finds the key on again. */
  const restarts = (probe: Probe): boolean =>
    s.flag('restartsOnKey') && probe.on('powered') && probe.on('halted') && probe.on('stopping') && !saysOff(probe, sense, true);
  return [
    {
      id: 'powered',
      operateS: 1,
      releaseS: FAST_S,
      wants: (probe, on) => across(probe, V5) > (on ? BOARD_SUPPLY.warnMinV : BOARD_SUPPLY.warnV),
    },
    { id: 'booted', operateS: s.num('bootS'), releaseS: FAST_S, wants: running },
    {
      id: 'stopping',
      operateS: s.num('filterS'),
      releaseS: FAST_S,
      wants: (probe, on) => (running(probe) ? probe.on('booted') && (on || saysOff(probe, sense, on)) : on && restarts(probe)),
    },
    {
      id: 'halted',
      operateS: stopS(s),
      releaseS: RESTART_S,
      wants: (probe, on) => {
        if (!probe.on('powered')) return false;
        if (on) return !restarts(probe) && !(canWake && across(probe, `${gpioPin(WAKE_GPIO).pin}`) < vIlMaxV);
        return probe.on('booted') && (probe.on('stopping') || saysOff(probe, sense, false));
      },
    },
  ];
}

interface Sense {
  readonly pin: string;
  readonly lowWhenOn: boolean;
  readonly vIlMaxV: number;
  readonly vIhMinV: number;
}

/** The pin that watches the key, or null: none chosen, or nothing joined to it. */
function senseOf(s: Settings, wired: Situation['wired']): Sense | null {
  const gpio = Math.round(s.num('senseGpio'));
  if (gpio === 0) return null;
  const pin = `${gpioPin(gpio).pin}`;
  if (!wired(pin)) return null;
  const { vIlMaxV, vIhMinV } = LOGIC[boardOf(s).logic];
  return { pin, lowWhenOn: s.str('senseActive') === 'low-when-on', vIlMaxV, vIhMinV };
}

/** Does the key sense say "off"? Between the two logic thresholds the last opinion stands. */
function saysOff(probe: Probe, sense: Sense | null, last: boolean): boolean {
  if (!sense) return false;
  const v = across(probe, sense.pin);
  if (v <= sense.vIlMaxV) return !sense.lowWhenOn;
  if (v >= sense.vIhMinV) return sense.lowWhenOn;
  return last;
}

function running(probe: Probe): boolean {
  return probe.on('powered') && !probe.on('halted');
}

function across(probe: Probe, node: string): number {
  return probe.volts(node) - probe.volts(V0);
}
