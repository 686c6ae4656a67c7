import { amount } from '../faces/format.ts';
import type { Setting } from '../parts/types.ts';
import { parseAmount } from '../trade/preferred.ts';

export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: string };

/** A number as people type it ("2k2", "0,5", "470 uF"), in SI, inside limits; otherwise why not and what is expected. */
export function parseNumber(text: string, unit: string, min: number, max: number): Parsed<number> {
  const value = parseAmount(text, unit);
  const between = `between ${amount(min, unit)} and ${amount(max, unit)}`;
  if (value === null || !Number.isFinite(value))
    return { ok: false, reason: `"${text.trim()}" is not a figure in ${unit === '' ? 'plain numbers' : unit}. Type a value ${between}.` };
  if (value < min || value > max) return { ok: false, reason: `${amount(value, unit)} is outside what this can be: ${between}.` };
  return { ok: true, value };
}

/** A temperature: "85", "85 °C", "185 °F". Gives degrees Celsius. */
export function parseCelsius(text: string, min: number, max: number): Parsed<number> {
  const value = parseAmount(text, 'degC');
  const between = `between ${min} and ${max} °C`;
  if (value === null) return { ok: false, reason: `"${text.trim()}" is not a temperature. Type a value ${between}.` };
  if (value < min || value > max) return { ok: false, reason: `${Math.round(value)} °C is outside what this can be: ${between}.` };
  return { ok: true, value: Math.round(value * 10) / 10 };
}

/** Text for one setting of a part. */
export function parseSetting(setting: Setting, text: string): Parsed<number | string> {
  if (setting.type === 'number') return parseNumber(text, setting.unit, setting.min, setting.max);
  if (setting.type === 'text') {
    const trimmed = text.trim();
    if (trimmed.length > setting.maxLength) return { ok: false, reason: `At most ${setting.maxLength} characters; this has ${trimmed.length}.` };
    return { ok: true, value: trimmed };
  }
  return { ok: false, reason: 'Choose one from the list.' };
}

/** Conductor size: "1.5", "1,5 mm²", "1½ sq", "18 AWG", "awg18". Gives mm². */
export function parseArea(text: string): Parsed<number> {
  const areaMm2 = parseAmount(text.replace(/(?:mm|sq)\s*$/i, 'mm2'), 'mm2');
  if (areaMm2 === null) return { ok: false, reason: `"${text.trim()}" is not a conductor size. Type it as 1.5 mm² or AWG 16.` };
  return inside(areaMm2);
}

function inside(areaMm2: number): Parsed<number> {
  if (!(areaMm2 >= 0.05 && areaMm2 <= 120)) return { ok: false, reason: 'A conductor here is between 0.05 and 120 mm².' };
  return { ok: true, value: Math.round(areaMm2 * 1000) / 1000 };
}

/** Length: "2.2", "2,2 m", "80 cm", "3 ft", "3 ft 6 in", "3' 6\"", "2½"; a bare number is in the chosen unit. Gives metres. */
export function parseLength(text: string, unit: 'm' | 'ft'): Parsed<number> {
  const both = /^(.*?(?:ft|feet|foot|'))\s*(\d.*)$/i.exec(text.trim());
  const whole = both?.[1] === undefined ? inMetres(text, unit) : inMetres(both[1], unit) + inMetres(both[2] ?? '', 'in');
  if (Number.isNaN(whole)) return { ok: false, reason: `"${text.trim()}" is not a length. Type it as 2.2 m, 80 cm or 3 ft.` };
  if (!(whole >= 0.01 && whole <= 100)) return { ok: false, reason: 'A length here is between 1 cm and 100 m.' };
  return { ok: true, value: Math.round(whole * 1000) / 1000 };
}

function inMetres(text: string, bare: 'm' | 'ft' | 'in'): number {
  const named = /[a-z'"]\s*$/i.test(text) ? text : `${text} ${bare}`;
  return parseAmount(named, 'm') ?? Number.NaN;
}
