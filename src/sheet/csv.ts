import type { Results } from '../advise/types.ts';
import { contextOf } from './context.ts';
import { partRows } from './partRows.ts';
import { wireRows } from './wireRows.ts';

/** Comma-separated text to RFC 4180: every field quoted, CRLF, UTF-8 without a byte order mark. */
function csv(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: string | number | null): string {
  if (value === null || (typeof value === 'number' && !Number.isFinite(value))) return '""';
  return `"${harmless(String(value)).replaceAll('"', '""')}"`;
}

/** A spreadsheet runs a field that begins like a formula; names come from plan files of others, so such a one gets an apostrophe. */
function harmless(text: string): string {
  return /^\s*[=@+-]./.test(text) && Number.isNaN(Number(text)) ? `'${text}` : text;
}

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

/** The wire list, one line a wire of the build, SI units named in the head. */
export function wireListCsv(results: Results): string {
  const head = [
    'number',
    'from',
    'from_joint',
    'to',
    'to_joint',
    'area_mm2',
    'awg',
    'colour',
    'colour_letters',
    'insulation_degC',
    'sleeved',
    'way',
    'length_m',
    'cut_m',
    'nominal_V',
    'load_A',
    'worst_drop_V',
    'protected_by',
    'note',
  ];
  const rows = wireRows(contextOf(results)).map((r) => [
    r.number,
    r.from,
    r.fromJoint,
    r.to,
    r.toJoint,
    r.areaMm2,
    r.awg,
    r.colour,
    r.letters,
    r.insulationC,
    r.sleeved ? 'yes' : 'no',
    r.way,
    rounded(r.lengthM, 3),
    rounded(r.cutM, 2),
    r.nominalV,
    rounded(r.loadA, 4),
    rounded(r.dropV, 4),
    r.protectedBy,
    r.note,
  ]);
  return csv([head, ...rows]);
}

/** The parts list, one line a kind and rating. */
export function partsListCsv(results: Results): string {
  const rows = partRows(contextOf(results)).map((r) => [r.items.length, r.title, r.spec, r.items.join(' '), r.names.join('; '), r.zones.join('; '), r.note]);
  return csv([['quantity', 'part', 'ratings_not_to_be_lowered', 'items', 'names', 'zones', 'note'], ...rows]);
}
