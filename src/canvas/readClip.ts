import type { Clip } from '../plan/copy.ts';
import type { Part, Wire } from '../plan/types.ts';
import { COLOURS } from '../trade/colours.ts';

type Row = Readonly<Record<string, unknown>>;
type Fits = (value: unknown) => boolean;

const text: Fits = (v) => typeof v === 'string';
const number: Fits = (v) => typeof v === 'number' && Number.isFinite(v);
const flag: Fits = (v) => typeof v === 'boolean';
const colour: Fits = (v) => typeof v === 'string' && Object.hasOwn(COLOURS, v);
const row: Fits = (v) => typeof v === 'object' && v !== null && !Array.isArray(v);
const owner: Fits = (v) => v === 'build' || v === 'vehicle';
const end: Fits = (v) => row(v) && text((v as Row).part) && text((v as Row).terminal);

/** What a copied part or wire must have, and what it may have besides: nothing else reaches the plan. */
const PART = {
  must: { id: text, kind: text, owner, zone: text, x: number, y: number, turn: (v) => [0, 1, 2, 3].includes(v as number), settings: row },
  may: { name: text, note: text, fitted: flag, item: number },
} as const satisfies Shape;
const WIRE = {
  must: { id: text, from: end, to: end, owner },
  may: {
    number,
    areaMm2: number,
    colour,
    stripe: colour,
    lengthM: number,
    insulationC: number,
    sleeved: flag,
    looped: flag,
    bends: Array.isArray,
    fitted: flag,
    note: text,
  },
} as const satisfies Shape;
interface Shape {
  readonly must: Readonly<Record<string, Fits>>;
  readonly may: Readonly<Record<string, Fits>>;
}

/**
 * A clip from clipboard text, or null when the text is something else. Whoever changed the text may have written anything
 * into it: a field of the wrong sort refuses the whole, one that is not known falls away. The store checks limits, kinds,
 * settings and terminals.
 */
export function readClip(clipboard: string): Clip | null {
  if (!clipboard.startsWith('{')) return null;
  let raw: Row;
  try {
    raw = JSON.parse(clipboard) as Row;
  } catch {
    return null;
  }
  const { format, parts, wires, zones } = raw;
  if (format !== 'dashloom-clip' || !Array.isArray(parts) || !Array.isArray(wires) || !row(zones) || !Object.values(zones as Row).every(text)) return null;
  const partRows = parts.map((p) => kept<Part>(p, PART));
  const wireRows = wires.map((w) => kept<Wire>(w, WIRE));
  if (partRows.includes(null) || wireRows.includes(null)) return null;
  return { format, parts: partRows as Part[], wires: wireRows as Wire[], zones: zones as Clip['zones'] };
}

function kept<T>(value: unknown, { must, may }: Shape): T | null {
  if (!row(value)) return null;
  const has = value as Row;
  for (const [key, fits] of Object.entries(must)) if (!fits(has[key])) return null;
  for (const [key, fits] of Object.entries(may)) if (has[key] !== undefined && !fits(has[key])) return null;
  return Object.fromEntries([...Object.keys(must), ...Object.keys(may)].filter((key) => has[key] !== undefined).map((key) => [key, has[key]])) as T;
}
