import { formatAmount } from '../trade/units.ts';

/** Figures as they stand on paper: two significant figures for drops and shares, three for volts and amps. SI in, text out. */

/** What is printed where there is no figure. */
export const DASH = '–';

/** With a space that does not break; a figure too small to matter is a plain 0. */
function shown(value: number, unit: string, digits: number, smallest: number): string {
  if (!Number.isFinite(value)) return DASH;
  const size = Math.abs(value);
  // Tenths of a volt or amp stay in the plain unit, as a meter shows them.
  const text =
    size >= 0.0995 && size < 1 && (unit === 'V' || unit === 'A')
      ? `${formatAmount(value, '', digits)} ${unit}`
      : formatAmount(size < smallest ? 0 : value, unit, digits);
  return text.replaceAll(' ', '\u00a0');
}

export const volts = (v: number): string => shown(v, 'V', 3, 0.5e-3);
/** What leaks through a sensing circuit is no voltage, and a floating lead reads none. */
export const isDead = (v: number): boolean => Number.isNaN(v) || Math.abs(v) < 0.3;
/** Volts of a lead that may be dead. */
export const nearVolts = (v: number): string => volts(isDead(v) ? 0 : v);
/** Volts beside others that are falling: hundredths are below what is looked for. */
export const fallingVolts = (v: number): string => volts(Math.abs(v) < 0.05 ? 0 : v);
export const dropVolts = (v: number): string => shown(v, 'V', 2, 0.05e-3);
export const amps = (a: number): string => (a === Number.POSITIVE_INFINITY ? 'no limit' : shown(a, 'A', Math.abs(a) < 1 ? 2 : 3, 0.05e-6));
export const ohms = (r: number): string => shown(r, 'ohm', 2, 0.05e-3);

/** A share 0..1 as per cent. */
export function percent(share: number): string {
  return share !== 0 && Math.abs(share) < 0.001 ? 'below\u00a00.1\u00a0%' : shown(share, '%', 2, 0);
}

export type LengthUnit = 'm' | 'ft';

/** A length in metres, or in feet when the person works in feet. */
export function lengthText(m: number, unit: LengthUnit): string {
  if (!Number.isFinite(m)) return DASH;
  return unit === 'ft' ? `${(m / 0.3048).toFixed(1)}\u00a0ft` : `${m.toFixed(2)}\u00a0m`;
}

/** Whole days, rounded down: a limit is never shown longer than it is. */
export function daysText(days: number): string {
  if (!Number.isFinite(days)) return 'no limit';
  const whole = Math.floor(days);
  return `${whole}\u00a0${whole === 1 ? 'day' : 'days'}`;
}

/** A finding's own figure by its unit. */
export function figureText(value: number, unit: string): string {
  if (unit === 'V') return volts(value);
  if (unit === 'A') return amps(value);
  return shown(value, unit, 3, 0);
}
