/** What a lamp line keeps while it is off (common practice, no source). */
export const LED_LAMP_REST = {
  /** The vehicle feels for an LED lamp with so many volts behind so much resistance. A bulb takes that to nothing. */
  volt: 6,
  ohm: 1000,
} as const;
