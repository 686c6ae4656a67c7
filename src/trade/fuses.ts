/** Blade fuses to ISO 8820-3: ratings, colours, resistance, how fast they open; and what a short heats a wire to. */
import { type Basis, demandNumber, logLog } from './basis.ts';
import type { ColourCode } from './words.ts';

export interface BladeFuse {
  readonly ratingA: number;
  readonly colour: string;
  readonly letters: ColourCode | null;
  readonly hex: string;
  readonly colourBasis: Basis;
  readonly coldMilliohm: number;
  readonly ohmBasis: Basis;
  /** Melting integral, A2s. Planning value: low confidence. */
  readonly meltI2t: number;
  readonly meltBasis: Basis;
}

type Row = readonly [number, string, ColourCode | null, string, Basis, number, Basis, number, Basis];
const ROWS: readonly Row[] = [
  [1, 'black', 'BK', '#202020', 'read', 123, 'read', 0.4, 'from memory'],
  [2, 'grey', 'GY', '#8c8c8c', 'read', 53.5, 'read', 1.4, 'from memory'],
  [3, 'violet', 'VT', '#7d4fa3', 'from memory', 31.1, 'from memory', 9, 'from memory'],
  [4, 'pink', 'PK', '#e58fb1', 'read', 22.8, 'read', 14, 'from memory'],
  [5, 'tan (light brown)', null, '#c89b6a', 'from memory', 17.85, 'from memory', 26, 'from memory'],
  [7.5, 'brown', 'BN', '#7a4a24', 'from memory', 10.91, 'from memory', 60, 'from memory'],
  [10, 'red', 'RD', '#c8322d', 'read', 7.7, 'read', 115, 'from memory'],
  [15, 'blue', 'BU', '#2f6db5', 'read', 4.8, 'from memory', 340, 'from memory'],
  [20, 'yellow', 'YE', '#e3bf2f', 'from memory', 3.38, 'read', 520, 'from memory'],
  [25, 'natural (clear)', null, '#e9e6dc', 'from memory', 2.52, 'read', 1000, 'read'],
  [30, 'light green', 'GN', '#5fae5b', 'from memory', 1.97, 'from memory', 1510, 'from memory'],
  // No figure was found above 30 A: 1.68 x rating squared, as at 30 A.
  [35, 'blue-green', 'TQ', '#2f9a97', 'from memory', 1.61, 'from memory', 2058, 'calculated'],
  [40, 'orange (amber)', 'OG', '#df7f2b', 'from memory', 1.44, 'from memory', 2688, 'calculated'],
];

/**
 * Regular blades (type C), 32 V. Colours and ratings: ISO 8820-3; resistance and melting integral: a fuse maker's sheet for the
 * regular blade as quoted in public documents. Basis per figure. The cold resistance is the unloaded one; at rated current it is half as much again.
 */
export const BLADE_FUSES: readonly BladeFuse[] = ROWS.map(([ratingA, colour, letters, hex, colourBasis, coldMilliohm, ohmBasis, meltI2t, meltBasis]) => ({
  ratingA,
  colour,
  letters,
  hex,
  colourBasis,
  coldMilliohm,
  ohmBasis,
  meltI2t,
  meltBasis,
}));

/** Ratings offered, A, rising. */
export const BLADE_RATINGS_A: readonly number[] = BLADE_FUSES.map((f) => f.ratingA);

function demandRating(ratingA: number): void {
  demandNumber(ratingA, 0.1, 500, 'Fuse rating in A');
}

/**
 * Body colour of a blade rating; `{ name: 'no standard colour', letters: null }` for a rating that is not a blade's.
 * @throws RangeError for a rating outside 0.1..500 A.
 */
export function bladeColour(ratingA: number): { name: string; letters: ColourCode | null; hex: string } {
  demandRating(ratingA);
  const fuse = BLADE_FUSES.find((f) => f.ratingA === ratingA);
  return fuse ? { name: fuse.colour, letters: fuse.letters, hex: fuse.hex } : { name: 'no standard colour', letters: null, hex: '#b0b0b0' };
}

/** Cold resistance, ohm; ratings between the blades are interpolated. @throws RangeError outside 0.1..500 A. */
export function coldOhm(ratingA: number): number {
  demandRating(ratingA);
  const fuse = BLADE_FUSES.find((f) => f.ratingA === ratingA);
  const points = BLADE_FUSES.map((f) => [f.ratingA, f.coldMilliohm] as const);
  return (fuse?.coldMilliohm ?? logLog(points, ratingA)) / 1000;
}

/** Melting integral, A2s; cautious for surges, never to be used as a promise of let-through. @throws RangeError outside 0.1..500 A. */
export function meltI2t(ratingA: number): number {
  demandRating(ratingA);
  const fuse = BLADE_FUSES.find((f) => f.ratingA === ratingA);
  const points = BLADE_FUSES.map((f) => [f.ratingA, f.meltI2t] as const);
  return fuse?.meltI2t ?? logLog(points, ratingA);
}

/**
 * What a warm fuse still carries: 1 - 0.0025 (T - 25), not above 1.
 * Reproduces the shop figures 0.95 / 0.90 / 0.85 at 45 / 65 / 85 degrees C (common practice, no source).
 */
export function tempFactor(tempC: number): number {
  demandNumber(tempC, -60, 200, 'Fuse surroundings in degrees C');
  return Math.min(1, 1 - 0.0025 * (tempC - 25));
}

/** Continuous load over rating at 25 degrees C. Source: fuse makers' guides (from memory). */
export const LOADING = 0.75;
/** What a blade fuse can break at 32 V, A. Source: ISO 8820-3 abstract (read). */
export const BREAKING_A = 1000;
/** Voltage classes of blade fuses, V. Source: ISO 8820-3 abstract (read). */
export const VOLT_CLASSES = [32, 58] as const;
/** Share of the melting integral that 100 000 repeated surges may use. Source: a fuse maker's selection guide (read). */
export const SURGE_SHARE = 0.22;

/**
 * Unfused length from the tap, m: advice above the first, hazard above the second. Basis: common practice, no source.
 * The small-craft rule, quoted for comparison (33 CFR 183.455, read): 178 mm, 1016 mm when sheathed throughout.
 */
export const TAP_DISTANCE_M = { advice: 0.15, hazard: 0.45 } as const;
export const SHEATHED_LIMIT_M = 1.0;

/** Operating-time gates of ISO 8820-3 types C and F (from memory): current over rating, shortest and longest time in s. */
export const GATES: readonly { readonly ratio: number; readonly minS: number; readonly maxS: number }[] = [
  { ratio: 1.1, minS: 360000, maxS: Number.POSITIVE_INFINITY },
  { ratio: 1.35, minS: 0.75, maxS: 600 },
  { ratio: 1.6, minS: 0.25, maxS: 50 },
  { ratio: 2, minS: 0.15, maxS: 5 },
  { ratio: 3.5, minS: 0.04, maxS: 0.5 },
  { ratio: 6, minS: 0.02, maxS: 0.1 },
];
const LONGEST = GATES.filter((g) => g.maxS < Number.POSITIVE_INFINITY).map((g) => [g.ratio, g.maxS] as const);
const SHORTEST = GATES.map((g) => [g.ratio, g.minS] as const);

/**
 * The longest a blade fuse may take at `ratio` x its rating, s: never to open below 1.35, straight lines on log-log paper
 * between the gates, and 3.6 / ratio squared above 6. @throws RangeError for a negative ratio.
 */
export function gateMaxS(ratio: number): number {
  demandNumber(ratio, 0, 1e6, 'Current over fuse rating');
  if (ratio < 1.35) return Number.POSITIVE_INFINITY;
  return ratio <= 6 ? logLog(LONGEST, ratio) : 3.6 / ratio ** 2;
}

/** The shortest it may take, s: not within 100 h up to 1.1, 0.72 / ratio squared above 6. @throws RangeError for a negative ratio. */
export function gateMinS(ratio: number): number {
  demandNumber(ratio, 0, 1e6, 'Current over fuse rating');
  if (ratio < 1.1) return Number.POSITIVE_INFINITY;
  return ratio <= 6 ? logLog(SHORTEST, ratio) : 0.72 / ratio ** 2;
}

/**
 * Longest time to open for a current in A, s: the gate, and above 6 x the rating at least twice the melting integral over I squared.
 */
export function clearTimeMaxS(ratingA: number, currentA: number): number {
  demandRating(ratingA);
  demandNumber(currentA, 0, 1e6, 'Fault current in A');
  const ratio = currentA / ratingA;
  const gateS = gateMaxS(ratio);
  return ratio > 6 ? Math.max(gateS, (2 * meltI2t(ratingA)) / currentA ** 2) : gateS;
}

/**
 * Adiabatic constant of copper, A s^0.5 / mm2: 226 sqrt(ln((234.5 + T_f) / (234.5 + T_i))); a short of I for t <= 5 s
 * leaves the wire at or below `finalC` when I2t <= k2S2. Source: IEC 60364-5-54 annex A (from memory).
 * @param insulationC conductor temperature before the short, degrees C
 * @param finalC limit during it, above insulationC
 * @throws RangeError when finalC is not above insulationC, or outside -60..400 degrees C.
 */
export function adiabaticK(insulationC: number, finalC: number): number {
  demandNumber(insulationC, -60, 400, 'Temperature before the short in degrees C');
  demandNumber(finalC, insulationC, 400, 'Temperature at the end of the short in degrees C');
  return 226 * Math.sqrt(Math.log((234.5 + finalC) / (234.5 + insulationC)));
}

/** What an insulation class stands in a short of up to 5 s, degrees C: 160 for PVC to 105, 250 cross-linked above (from memory). */
export function shortCircuitEndC(insulationC: number): number {
  return insulationC > 105 ? 250 : 160;
}
