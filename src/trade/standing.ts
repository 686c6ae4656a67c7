/** What a vehicle that stands may lose, and what guards its battery. */

/** Share of the battery that may be used with the engine off before the next start (common practice, no source). */
export const ENGINE_OFF_SHARE = 0.2;

/** Left to itself for longer than `aloneS`, a load above `loadA` wants a cut-out (common practice, no source). */
export const UNATTENDED = { loadA: 0.05, aloneS: 3600 } as const;

/**
 * Settings of a low-voltage cut-out, 12 V; twice that in a 24 V vehicle (common practice, no source): below `leastV` an
 * engine may not start any more, a shorter delay trips while the starter turns, and a battery at rest recovers past a lower
 * level for joining again, so that it cuts in and out until it is empty.
 */
export const CUT_OUT = { leastV: 11.8, leastDelayS: 30, backV: 12.8 } as const;

/** A relay coil above this is energised, A (common practice, no source: timers at rest take a tenth of a milliampere). */
export const COIL_RESTS_A = 0.005;
/** A lamp or divider that draws less than this for ever is not worth a word, A (common practice, no source). */
export const NEVER_SLEEPS_A = 0.001;

/** A dead vehicle line that our wiring lifts above this may be taken for live by what listens there, V (common practice, no source). */
export const KEPT_UP_V = 1;
/** More than this beside a bulb that the vehicle checks makes it miss a failed one, A (common practice, no source). */
export const BULB_CHECK_A = 0.005;

/** Held so many times as long as a stop takes, a plain card may be left writable (common practice, no source). */
export const STORAGE_MARGIN = 2;
