import { formatAmount } from '../trade/preferred.ts';

/*
 * Figures as a person reads them: at most two significant figures for drops, margins and shares, three for volts and
 * amps. Values come in SI; text goes out with its unit. A figure that does not exist (NaN) is a dash.
 */
export interface UnitChoice {
  readonly area: 'mm2' | 'awg';
  readonly length: 'm' | 'ft';
}

export interface Shown {
  readonly value: string;
  readonly unit: string;
}

export const NONE = '–';
const M_PER_FT = 0.3048;

/** Plain decimal text with at most `digits` significant figures and no trailing zeros; whole numbers keep all digits. */
export function significant(value: number, digits: number): string {
  if (!Number.isFinite(value)) return NONE;
  if (value === 0) return '0';
  const magnitude = Math.floor(Math.log10(Math.abs(value)));
  const decimals = Math.max(0, digits - 1 - magnitude);
  const rounded = Number(value.toFixed(Math.min(decimals, 20)));
  // Rounding may carry into the next decade (9.996 -> 10.0): one decimal fewer then.
  const carried = rounded !== 0 && Math.floor(Math.log10(Math.abs(rounded))) > magnitude;
  return rounded
    .toFixed(Math.max(0, carried ? decimals - 1 : decimals))
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');
}

/** Like `significant`, but keeps trailing zeros so that figures in a column have the same weight: 5.00, 14.2, 0.380. */
function fixed(value: number, digits: number): string {
  const magnitude = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)) + 1e-12);
  const text = value.toFixed(Math.max(0, digits - 1 - magnitude));
  const carried = Math.abs(Number(text)) >= 10 ** (magnitude + 1);
  return carried ? value.toFixed(Math.max(0, digits - 2 - magnitude)) : text;
}

const join = (s: Shown): string => (s.unit === '' ? s.value : `${s.value}\u00a0${s.unit}`);

/** Volts of a terminal: three figures; millivolts under 0.1 V. */
export function voltsShown(v: number): Shown {
  if (!Number.isFinite(v)) return { value: NONE, unit: '' };
  const size = Math.abs(v);
  if (size < 0.0005) return { value: '0', unit: 'V' };
  if (size < 0.0995) return { value: significant(v * 1000, 2), unit: 'mV' };
  return { value: fixed(v, 3), unit: 'V' };
}
export const volts = (v: number): string => join(voltsShown(v));

/** A drop or margin in volts: two figures. */
export function dropShown(v: number): Shown {
  if (!Number.isFinite(v)) return { value: NONE, unit: '' };
  const size = Math.abs(v);
  if (size < 0.00005) return { value: '0', unit: 'V' };
  if (size < 0.00995) return { value: significant(v * 1000, 2), unit: 'mV' };
  return { value: fixed(v, 2), unit: 'V' };
}
export const drop = (v: number): string => join(dropShown(v));

/** Amps: three figures from 1 A, two below; milliamps under 0.1 A, microamps under 0.1 mA. */
export function ampsShown(a: number): Shown {
  if (a === Number.POSITIVE_INFINITY) return { value: 'no limit', unit: '' };
  if (!Number.isFinite(a)) return { value: NONE, unit: '' };
  const size = Math.abs(a);
  if (size < 0.05e-6) return { value: '0', unit: 'A' };
  if (size < 0.0995e-3) return { value: significant(a * 1e6, 2), unit: 'µA' };
  if (size < 0.0995) return { value: significant(a * 1e3, 2), unit: 'mA' };
  return { value: fixed(a, size < 0.995 ? 2 : 3), unit: 'A' };
}
export const amps = (a: number): string => join(ampsShown(a));

/** Watts: two figures below 10 W, whole figures of three above. */
export function wattsShown(w: number): Shown {
  if (!Number.isFinite(w)) return { value: NONE, unit: '' };
  const size = Math.abs(w);
  if (size < 0.5e-6) return { value: '0', unit: 'W' };
  if (size < 0.995e-3) return { value: significant(w * 1e6, 2), unit: 'µW' };
  if (size < 0.0995) return { value: significant(w * 1e3, 2), unit: 'mW' };
  return { value: fixed(w, size < 9.95 ? 2 : 3), unit: 'W' };
}
export const watts = (w: number): string => join(wattsShown(w));

/** Watts for each metre, two figures; per foot when feet are chosen. */
export function wattsPerLength(wPerM: number, units: UnitChoice): string {
  const perFoot = units.length === 'ft';
  const shown = wattsShown(perFoot ? wPerM * M_PER_FT : wPerM);
  return shown.unit === '' ? shown.value : `${shown.value}\u00a0${shown.unit}/${perFoot ? 'ft' : 'm'}`;
}

/** A share 0..1 as per cent, two figures. */
export function share(part: number): string {
  if (!Number.isFinite(part)) return NONE;
  const percent = part * 100;
  if (percent !== 0 && Math.abs(percent) < 0.1) return `under\u00a00.1\u00a0%`;
  return `${significant(percent, Math.abs(percent) >= 99.5 ? 3 : 2)}\u00a0%`;
}

/** Days the battery lasts: two figures under ten days, whole days above. */
export function days(value: number): string {
  if (value === Number.POSITIVE_INFINITY) return 'no end';
  if (!Number.isFinite(value)) return NONE;
  const text = value < 10 ? significant(value, 2) : String(Math.floor(value));
  return `${text}\u00a0${text === '1' ? 'day' : 'days'}`;
}

/** A length in metres or feet. */
export function length(m: number, units: UnitChoice): string {
  if (!Number.isFinite(m)) return NONE;
  if (units.length === 'ft') return `${significant(m / M_PER_FT, 3)}\u00a0ft`;
  return `${significant(m, m < 0.1 ? 2 : 3)}\u00a0m`;
}

/** Conductor size, the chosen unit first and the other next to it; `awg` is the label of trade/conductors. */
export function area(areaMm2: number, awg: string, units: UnitChoice): string {
  const metric = `${significant(areaMm2, 3)}\u00a0mm²`;
  return units.area === 'awg' ? `${awg} (${metric})` : `${metric} (${awg})`;
}

/** A setting's value with its unit and an SI prefix where the trade writes one: 2.2 kΩ, 470 µF, 100 mA, 90 s. */
export function amount(value: number, unit: string): string {
  return formatAmount(value, unit, 4).replace(' ', '\u00a0');
}

/** "1 fault", "3 faults". */
export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
