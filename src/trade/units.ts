/** Units of amounts and how they are printed. */
import { demand } from './basis.ts';

/** Units an amount can have. SI inside; areas in mm2, temperatures in degrees C, shares as fractions. */
export type AmountUnit = 'ohm' | 'F' | 'H' | 'A' | 'V' | 'W' | 's' | 'Hz' | 'm' | 'mm2' | 'degC' | 'Ah' | 'J' | '%' | 'days' | 'K/W' | '';

/** How a unit is printed. */
export const UNIT_TEXT: Record<AmountUnit, string> = {
  ohm: 'Ω',
  F: 'F',
  H: 'H',
  A: 'A',
  V: 'V',
  W: 'W',
  s: 's',
  Hz: 'Hz',
  m: 'm',
  mm2: 'mm²',
  degC: '°C',
  Ah: 'Ah',
  J: 'J',
  '%': '%',
  days: 'days',
  'K/W': 'K/W',
  '': '',
};

/** Other names a caller may give a unit. */
const ALIASES: Readonly<Record<string, AmountUnit>> = { Ω: 'ohm', ohms: 'ohm', '°C': 'degC', C: 'degC', 'mm²': 'mm2', d: 'days', day: 'days' };

/** The unit by any of its names; null for one that is not in the table. */
export function knownUnit(unit: string): AmountUnit | null {
  if (Object.hasOwn(UNIT_TEXT, unit)) return unit as AmountUnit;
  return ALIASES[unit] ?? null;
}

/** Factor, sign, and the amount from which it is used where that is not its factor. */
type Prefix = readonly [factor: number, sign: string, from?: number];

const PREFIX_DOWN = [
  [1e-12, 'p'],
  [1e-9, 'n'],
  [1e-6, 'µ'],
  [1e-3, 'm'],
  [1, ''],
] as const;
const PREFIX_UP = [[1, ''] as const, [1e3, 'k'] as const, [1e6, 'M'] as const];

/** From a tenth on a thing is sold by the whole unit: 0.25 W, 0.33 Ω, 0.47 F. */
const TENTH = 0.1;

/** Which prefixes a unit is printed with, and from what amount on: those that the trade writes. */
function prefixes(unit: AmountUnit): readonly Prefix[] {
  if (unit === 'ohm') return [[1e-3, 'm'], [1, '', TENTH], ...PREFIX_UP.slice(1)];
  // Capacitors are sold as 4700 µF, never as 4.7 mF.
  if (unit === 'F') return [...PREFIX_DOWN.slice(0, 3), [1, '', TENTH]];
  if (unit === 'H') return PREFIX_DOWN;
  if (unit === 'A' || unit === 'V')
    return [
      [1e-9, 'n'],
      [1e-6, 'µ'],
      [1e-3, 'm'],
      [1, ''],
    ];
  if (unit === 'W')
    return [
      [1e-6, 'µ'],
      [1e-3, 'm'],
      [1, '', TENTH],
    ];
  if (unit === 's')
    return [
      [1e-6, 'µ'],
      [1e-3, 'm'],
      [1, ''],
    ];
  return unit === 'Hz' ? PREFIX_UP : [[1, '']];
}

/**
 * An amount as a person reads it: `2.2 kΩ`, `470 µF`, `1.5 mm²`, `5 %`. Trailing zeros are dropped.
 * @param digits significant figures, default 3
 */
export function formatAmount(value: number, unit: string, digits = 3): string {
  demand(Number.isInteger(digits) && digits >= 1 && digits <= 12, 'Significant figures must be 1 to 12', digits);
  if (Number.isNaN(value)) return 'not computed';
  const known = knownUnit(unit);
  const text = known === null ? unit : UNIT_TEXT[known];
  if (!Number.isFinite(value)) return value > 0 ? 'unlimited' : '−unlimited';
  const scaled = known === '%' ? value * 100 : value;
  const [factor, prefix] = pickPrefix(Math.abs(scaled), known === null ? [[1, '']] : prefixes(known), digits);
  const number = plain(scaled / factor, digits);
  return `${number} ${prefix}${text}`.trim();
}

function pickPrefix(size: number, choices: readonly Prefix[], digits: number): Prefix {
  const unity = choices.find(([factor]) => factor === 1)!;
  if (size === 0) return unity;
  // Round first: 999.9 mA at three figures is 1 A, not 1000 mA.
  const rounded = Number(size.toPrecision(digits));
  return choices.findLast(([factor, , from = factor]) => rounded >= from * (1 - 1e-9)) ?? choices[0]!;
}

/** A number to so many figures without exponent or trailing zeros, with a true minus sign. */
function plain(value: number, digits: number): string {
  const rounded = Number(value.toPrecision(digits));
  if (rounded === 0) return '0';
  const decimals = Math.min(12, Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(rounded)))));
  const fixed = rounded.toFixed(decimals);
  return (fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed).replace('-', '−');
}
