/** Reads amounts as people type them: `2k2`, `4,7 uF`, `1R0`, `470u`, `18 AWG`, `3 ft`, `0,5`, `½`, `1 1/2`. */
import { awgAreaMm2 } from './conductors.ts';
import { type AmountUnit, knownUnit } from './units.ts';

export { type AmountUnit, formatAmount, UNIT_TEXT } from './units.ts';

const PREFIX: Readonly<Record<string, number>> = { p: 1e-12, n: 1e-9, u: 1e-6, µ: 1e-6, μ: 1e-6, m: 1e-3, '': 1, R: 1, r: 1, k: 1e3, K: 1e3, M: 1e6 };

/** Spellings of the unit itself, lower case, that may follow number and prefix. */
const SPELLINGS: Record<AmountUnit, readonly string[]> = {
  ohm: ['ohm', 'ohms', 'ω', 'r'],
  F: ['f'],
  H: ['h'],
  A: ['a', 'amp', 'amps'],
  V: ['v', 'volt', 'volts'],
  W: ['w', 'watt', 'watts'],
  s: ['s', 'sec', 'second', 'seconds'],
  Hz: ['hz'],
  m: ['m', 'metre', 'metres', 'meter', 'meters'],
  mm2: ['mm2', 'mm²', 'mm^2', 'sqmm', 'qmm'],
  degC: ['°c', 'c', 'degc', 'deg c', '°'],
  Ah: ['ah'],
  J: ['j'],
  '%': ['%', 'percent'],
  days: ['days', 'day', 'd'],
  'K/W': ['k/w'],
  '': [],
};

/** Other units people use for the same quantity, lower case, to SI. */
const OTHERS: Partial<Record<AmountUnit, Readonly<Record<string, (n: number) => number>>>> = {
  m: {
    mm: (n) => n / 1000,
    cm: (n) => n / 100,
    ft: (n) => n * 0.3048,
    foot: (n) => n * 0.3048,
    feet: (n) => n * 0.3048,
    "'": (n) => n * 0.3048,
    in: (n) => n * 0.0254,
    inch: (n) => n * 0.0254,
    inches: (n) => n * 0.0254,
    '"': (n) => n * 0.0254,
  },
  s: { min: (n) => n * 60, minutes: (n) => n * 60, h: (n) => n * 3600 },
  degC: { '°f': (n) => (n - 32) / 1.8, f: (n) => (n - 32) / 1.8 },
  Ah: { mah: (n) => n / 1000 },
};

/** Units for which a bare prefix letter (`470u`, `2k2`) makes sense; `3 m` of cable is three metres, not three thousandths. */
const PREFIXED: ReadonlySet<AmountUnit> = new Set(['ohm', 'F', 'H', 'A', 'V', 'W', 's', 'Hz', 'J']);

/**
 * Reads an amount; null when the text is not one, so that the person can be told.
 * A comma or a point is the decimal sign; no thousands separators. A bare number is in the unit itself: SI, mm2, metres,
 * degrees C, and for `%` per cent. `2k2` and `1R0` put the prefix in place of the decimal sign. Sizes also take `18 AWG`.
 * @returns the amount in the unit's SI value (per cent as a fraction), finite
 */
export function parseAmount(text: string, unit: string): number | null {
  const known = knownUnit(unit);
  const clean = text.trim().replace(/\s+/g, ' ').replace(/[−–]/g, '-').replace(/,/g, '.');
  const value = known === null ? parseForeign(clean, unit) : known === 'mm2' ? (parseGauge(clean) ?? parseNumber(clean, known)) : parseNumber(clean, known);
  return value !== null && Number.isFinite(value) ? value : null;
}

/** A unit this file has no spellings for: a plain number, with or without the unit's own text behind it. */
function parseForeign(text: string, unit: string): number | null {
  const bare = text.endsWith(unit) ? text.slice(0, -unit.length).trim() : text;
  return parseNumber(bare, '');
}

function parseGauge(text: string): number | null {
  const match = /^(?:awg ?#?(\d{1,2})|#?(\d{1,2}) ?(?:awg|ga|gauge))$/i.exec(text);
  if (!match) return null;
  const awg = Number(match[1] ?? match[2]);
  return awg <= 40 ? awgAreaMm2(awg) : null;
}

const FRACTIONS: Readonly<Record<string, number>> = { '¼': 0.25, '½': 0.5, '¾': 0.75, '⅓': 1 / 3, '⅔': 2 / 3, '⅛': 0.125, '⅜': 0.375, '⅝': 0.625, '⅞': 0.875 };

/** `½`, `2½`, `1/2` and `1 1/2` at the beginning as a decimal number; other texts as they are. */
function withoutFraction(text: string): string {
  const sign = /^(\d+)? ?([¼½¾⅓⅔⅛⅜⅝⅞])/.exec(text);
  if (sign) return Number(sign[1] ?? 0) + FRACTIONS[sign[2]!]! + text.slice(sign[0].length);
  const slash = /^(?:(\d+) )?(\d{1,2})\/([1-9]\d?)(?![\d.])/.exec(text);
  return slash ? Number(slash[1] ?? 0) + Number(slash[2]) / Number(slash[3]) + text.slice(slash[0].length) : text;
}

function parseNumber(typed: string, unit: AmountUnit): number | null {
  const text = withoutFraction(typed);
  const infix = /^([+-]?\d+)([pnuµμmRrkKM])(\d+)(?: ?(.*))?$/.exec(text);
  if (infix && PREFIXED.has(unit) && (infix[4] === undefined || infix[4] === '' || SPELLINGS[unit].includes(infix[4].toLowerCase()))) {
    const factor = PREFIX[infix[2]!]!;
    if (/r/i.test(infix[2]!) && unit !== 'ohm') return null;
    return tidy(Number(`${infix[1]}.${infix[3]}`) * factor);
  }
  const match = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?) ?(.*)$/i.exec(text);
  if (!match) return null;
  const factor = unitFactor(match[2]!, unit);
  if (factor === null) return null;
  return tidy(typeof factor === 'number' ? Number(match[1]) * factor : factor(Number(match[1])));
}

/** What the text after the number multiplies by or turns into; null when it is not this unit. */
function unitFactor(tail: string, unit: AmountUnit): number | ((n: number) => number) | null {
  const own = unit === '%' ? 0.01 : 1;
  const low = tail.toLowerCase();
  if (tail === '' || SPELLINGS[unit].includes(low)) return own;
  const other = OTHERS[unit]?.[low];
  if (other) return other;
  if (!PREFIXED.has(unit)) return null;
  const prefix = PREFIX[tail[0]!];
  if (prefix === undefined || (/r/i.test(tail[0]!) && unit !== 'ohm')) return null;
  const rest = low.slice(1).trim();
  return rest === '' || SPELLINGS[unit].includes(rest) ? prefix : null;
}

/** Keeps 4.7 x 1e-6 from carrying a rounding tail. */
const tidy = (value: number): number => Number(value.toPrecision(12));
