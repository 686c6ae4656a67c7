/** What lines do while the key is turned and while lamps are watched by the vehicle: seconds that a filter must outlast. */
import type { Basis } from './basis.ts';

interface Event {
  readonly leastS: number;
  readonly mostS: number;
  readonly source: string;
  readonly basis: Basis;
}

/** How long a starter turns: about a second, ten on a cold engine; accessory lines are dead for as long. */
export const STARTER: Event = {
  leastS: 0.5,
  mostS: 10,
  source: 'fitters’ practice; plateau of the starting profiles of ISO 16750-2',
  basis: 'common practice',
};
/** How long the contacts of an ignition switch bounce when it is turned. */
export const KEY_BOUNCE: Event = { leastS: 0.05, mostS: 0.2, source: 'fitters’ practice', basis: 'common practice' };
/** How long a line that stays live sags when the starter takes hold, before the battery has recovered. */
export const STARTER_SAG: Event = { leastS: 0.02, mostS: 0.5, source: 'fitters’ practice', basis: 'common practice' };
/** Pulses by which a vehicle's electronics feel for a bulb: on while it is off, off while it is on. */
export const LAMP_TEST: Event = { leastS: 0.1e-3, mostS: 5e-3, source: 'lamp drivers’ sheets', basis: 'from memory' };
/** A filter on a lamp line is wanted four times as long as the longest of those pulses, s. */
export const LAMP_FILTER_S = 4 * LAMP_TEST.mostS;
/** Dimmed lamps are switched this many times a second, at the least and at the most, Hz (common practice). */
export const DIMMER_HZ = { least: 80, most: 400 } as const;
/** A filter on a dimmed line is wanted as long as so many of its periods (common practice). */
export const DIMMER_PERIODS = 3;
/** A hold timer that always runs out believes that its trigger has gone after this time, s: longer than bounce and sag (common practice). */
export const TIMER_BELIEVES_S = 1;

/** Contacts have come to rest this long after they moved, s (common practice: bounce of 1 to 10 ms). */
export const BOUNCE_S = 0.01;
/** Contacts of relays are heavier and take longer, s (common practice). */
export const RELAY_REST_S = 0.02;

/**
 * Instrument lamps dimmed by pulses, from 100 Hz (from memory). `leastTauS` leaves 5 % ripple at that: 1 / (4 f tau).
 * Brightness inputs of displays bear 5 V (common practice, no source).
 */
export const DIMMER = { hz: 100, leastTauS: 0.05, inputMaxV: 5.25 } as const;
