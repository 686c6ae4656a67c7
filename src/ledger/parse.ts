import { amount } from '../faces/format.ts';
import type { Setting } from '../parts/types.ts';
import { awgAreaMm2 } from '../trade/conductors.ts';
import { parseAmount } from '../trade/preferred.ts';

export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly reason: string };

const M_PER_FT = 0.3048;

/** A number as people type it ("2k2", "0,5", "470 uF"), in SI, inside limits; otherwise why not and what is expected. */
export function parseNumber(text: string, unit: string, min: number, max: number): Parsed<number> {
  const value = parseAmount(text, unit);
  const between = `between ${amount(min, unit)} and ${amount(max, unit)}`;
  if (value === null || !Number.isFinite(value))
    return { ok: false, reason: `"${text.trim()}" is not a figure in ${unit === '' ? 'plain numbers' : unit}. Type a value ${between}.` };
  if (value < min || value > max) return { ok: false, reason: `${amount(value, unit)} is outside what this can be: ${between}.` };
  return { ok: true, value };
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

/** Conductor size: "1.5", "1,5 mm²", "18 AWG", "awg18". Gives mm². */
export function parseArea(text: string): Parsed<number> {
  const gauge = /^\s*(?:awg\s*(\d{1,2})|(\d{1,2})\s*awg)\s*$/i.exec(text);
  if (gauge) return inside(awgAreaMm2(Number(gauge[1] ?? gauge[2])));
  const metric = /^\s*(\d+(?:[.,]\d+)?)\s*(?:mm2|mm²|mm\^2|mm|sq)?\s*$/i.exec(text);
  if (metric?.[1]) return inside(Number(metric[1].replace(',', '.')));
  return { ok: false, reason: `"${text.trim()}" is not a conductor size. Type it as 1.5 mm² or AWG 16.` };
}

function inside(areaMm2: number): Parsed<number> {
  if (!(areaMm2 >= 0.05 && areaMm2 <= 120)) return { ok: false, reason: 'A conductor here is between 0.05 and 120 mm².' };
  return { ok: true, value: Math.round(areaMm2 * 1000) / 1000 };
}

/** Length: "2.2", "2,2 m", "80 cm", "3 ft", "40 in"; a bare number is in the chosen unit. Gives metres. */
export function parseLength(text: string, unit: 'm' | 'ft'): Parsed<number> {
  const hit = /^\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|m|ft|feet|foot|'|in|inch|inches|")?\s*$/i.exec(text);
  if (!hit?.[1]) return { ok: false, reason: `"${text.trim()}" is not a length. Type it as 2.2 m, 80 cm or 3 ft.` };
  const value = Number(hit[1].replace(',', '.'));
  const lengthM = value * metresIn((hit[2] ?? unit).toLowerCase());
  if (!(lengthM >= 0.01 && lengthM <= 100)) return { ok: false, reason: 'A length here is between 1 cm and 100 m.' };
  return { ok: true, value: Math.round(lengthM * 1000) / 1000 };
}

function metresIn(unit: string): number {
  switch (unit) {
    case 'mm':
      return 0.001;
    case 'cm':
      return 0.01;
    case 'm':
      return 1;
    case 'in':
    case 'inch':
    case 'inches':
    case '"':
      return M_PER_FT / 12;
    default:
      return M_PER_FT;
  }
}
