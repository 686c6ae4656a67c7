/** Sound between devices of a vehicle. */

/** A source may be so many times louder at full level than what an input takes: louder ones distort (common practice, no source). */
export const LEVEL_RATIO = 1.2;
/**
 * Pulses of a dimmed backlight that a sound chain plays, Hz: below, bass is left out by most lines; above, nobody hears it
 * (common practice, no source; dimmers that are out of the way work at 25 kHz or more).
 */
export const HEARD_HZ = { least: 100, most: 20_000, quiet: 25_000 } as const;
