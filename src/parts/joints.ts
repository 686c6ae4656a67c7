/** Inner joint of two terminals of one board or housing, ohm: nothing to measure, but never zero. */
export const JOIN_OHM = 1e-4;
/** Screen of a plug to the board behind it, ohm (common practice, no source). */
export const SCREEN_OHM = 5e-3;
/** Composite and digital video lines end in their line impedance, ohm (75 ohm composite video, from memory). */
export const VIDEO_OHM = 75;
