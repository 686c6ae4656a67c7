/** Figures of the fitters' trade that no table of a standard holds. Basis beside each. */

/** Share of the vehicle's fuse that its own loads and ours together may use (common practice, no source). */
export const DONOR_SHARE = 0.8;
/** Assumed share of the vehicle's fuse that its own loads use, until somebody has measured (common practice, no source). */
export const DONOR_ASSUMED = 0.5;
/** A fuse must be this many times the next one behind it, so that the right one opens first (common practice, no source). */
export const FUSE_STEP = 1.6;

/** Crimped contact of the 2.54 mm header, A (a reference page on such contacts, read; low authority). */
export const HEADER_CONTACT_A = 3;
/** From here on a contact carries less, degrees C, and what is left of its rating (common practice, no source). */
export const HOT_CONTACT = { fromC: 70, share: 0.7 } as const;
/** Contacts side by side do not share alike: of two the worse takes 60 %, of n 1.2 / n (common practice, no source). */
export function worstShare(contacts: number): number {
  return contacts <= 1 ? 1 : 1.2 / contacts;
}

/** Insulation must be this much better than the hottest place on the way, K (common practice, no source). */
export const INSULATION_MARGIN_K = 10;
/** In a bundle no wire should use more than this share of its limit (common practice, no source). */
export const BUNDLE_SHARE = 0.8;
/** Loaded wires from which a bundle is one (US electrical code 2014, table 310.15(B)(3)(a), read). */
export const BUNDLE_FROM = 4;

/** Wires that a tap piercing the insulation holds, mm2: red, blue, yellow (makers' lists, from memory). */
export const PIERCING_MM2: readonly { readonly colour: string; readonly least: number; readonly most: number }[] = [
  { colour: 'red', least: 0.5, most: 0.8 },
  { colour: 'blue', least: 0.75, most: 2.5 },
  { colour: 'yellow', least: 2.5, most: 6 },
];
/** Most that a piercing tap should carry for long, A (common practice, no source). */
export const PIERCING_MOST_A = 3;

/** Spare length for a place that bends, m (common practice, no source). */
export const LOOP_M = 0.15;
/** Below this current an opening silver contact draws no standing arc, A (handbooks of contacts, from memory). */
export const LEAST_ARC_A = 0.4;
/** A typed length may fall short of the runs by this share; a string is no ruler. */
export const LENGTH_SLACK = 0.05;
/** What a small glass fuse is sure to break, A: the greater of a fixed current and a multiple of its rating (IEC 60127-2, low breaking capacity, from memory). */
export const GLASS_BREAKS = { leastA: 35, times: 10 } as const;
/** Ratings from which fuses are bolted down, A, and what those break, A (makers' lists, from memory). */
export const BOLTED = { fromA: 30, breakA: 2000 } as const;
/** A switch in the return alone matters from this load current on, A (common practice, no source). */
export const RETURN_SWITCH_A = 0.5;
