/** What hot outsides do to what touches them. */

/** Bare metal that a finger meets for a second burns from here on, degrees C (ISO 13732-1, from memory). */
export const BURNS_C = 65;
/** Foam, cloth and common insulation suffer from here on, degrees C (common practice, no source). */
export const CHARS_C = 100;
