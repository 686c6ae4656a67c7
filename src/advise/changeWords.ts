import { partKinds } from '../parts/index.ts';
import type { ChangedRow, FieldDiff } from '../plan/diff.ts';
import { madeFields } from '../plan/diff.ts';
import type { End, Part, Plan, Wire, Zone } from '../plan/types.ts';
import { COLOURS } from '../trade/colours.ts';
import { formatAmount } from '../trade/units.ts';
import type { ColourCode } from '../trade/words.ts';
import { labelsOf, type Since } from './since.ts';

export interface ChangeLine {
  readonly what: 'added' | 'changed' | 'removed';
  readonly kind: 'part' | 'wire' | 'zone';
  readonly id: string;
  /** `W3`, `F1 Main fuse`, `Roof`. */
  readonly name: string;
  /** In words, each with before and after; from where to where for a wire that came or went. */
  readonly words: readonly string[];
}

/** Everything that changed, one line a thing: parts, wires, then zones. Runs show in the lengths of their wires. */
export function changeLines(filled: Plan, since: Since): readonly ChangeLine[] {
  const { diff, was } = since;
  const now = labelsOf(filled);
  const then = labelsOf(was);
  const partLine = (what: ChangeLine['what'], part: Part, words: readonly string[], labels = now): ChangeLine => ({
    what,
    kind: 'part',
    id: part.id,
    name: labels.get(part.id) ?? part.id,
    words,
  });
  const wireLine = (what: ChangeLine['what'], wire: Wire, words: readonly string[]): ChangeLine => ({
    what,
    kind: 'wire',
    id: wire.id,
    name: wireName(wire),
    words,
  });
  const zoneLine = (what: ChangeLine['what'], zone: Zone): ChangeLine => ({ what, kind: 'zone', id: zone.id, name: zone.name, words: [] });
  const place = (plan: Plan, part: Part): string[] => [plan.zones[part.zone]?.name ?? ''].filter((t) => t !== '');
  return [
    ...diff.parts.added.map((p) => partLine('added', p, place(filled, p))),
    ...diff.parts.changed.map((row) => partLine('changed', row.after, partWords(row, filled, was))),
    ...diff.parts.removed.map((p) => partLine('removed', p, place(was, p), then)),
    ...diff.wires.added.map((w) => wireLine('added', w, [`${endText(w.from, now)} → ${endText(w.to, now)}`])),
    ...diff.wires.changed.map((row) => wireLine('changed', row.after, wireWords(row, now, then))),
    ...diff.wires.removed.map((w) => wireLine('removed', w, [`${endText(w.from, then)} → ${endText(w.to, then)}`])),
    ...diff.zones.added.map((z) => zoneLine('added', z)),
    ...diff.zones.changed.map(
      (row): ChangeLine => ({
        ...zoneLine('changed', row.after),
        words: row.fields.flatMap((f) =>
          f.field === 'name' ? [`was ${row.before.name}`] : f.field === 'maxC' ? [step('up to', degrees(f.before), degrees(f.after))] : [],
        ),
      }),
    ),
    ...diff.zones.removed.map((z) => zoneLine('removed', z)),
  ];
}

function partWords(row: ChangedRow<Part>, now: Plan, then: Plan): string[] {
  const kind = partKinds.get(row.after.kind);
  const title = (part: Part): string => partKinds.get(part.kind)?.title ?? part.kind;
  return madeFields(row).map((f) => {
    if (f.field === 'kind') return step('kind', title(row.before), title(row.after));
    if (f.field === 'zone') return step('zone', then.zones[row.before.zone]?.name, now.zones[row.after.zone]?.name);
    if (f.field === 'name') return step('name', title(row.before), title(row.after), f);
    const setting = kind?.settings.find((s) => `settings.${s.key}` === f.field);
    if (!setting) return step(plainWords(f.field.replace(/^settings\./, '')), valueText(f.before), valueText(f.after));
    const text = (value: unknown): string => {
      const v = value ?? setting.default;
      if (setting.type === 'choice') return setting.options.find((o) => o.value === v)?.label ?? String(v);
      return valueText(v, setting.type === 'number' ? setting.unit : '');
    };
    return step(lowerFirst(setting.label), text(f.before), text(f.after));
  });
}

function wireWords(row: ChangedRow<Wire>, now: ReadonlyMap<string, string>, then: ReadonlyMap<string, string>): string[] {
  const words: string[] = [];
  for (const end of ['from', 'to'] as const) {
    if (row.fields.some((f) => f.field.startsWith(`${end}.`))) words.push(step(end, endText(row.before[end], then), endText(row.after[end], now)));
  }
  for (const f of madeFields(row)) {
    const say = WIRE_WORDS[f.field];
    if (say) words.push(step(say.label, say.text(f.before), say.text(f.after)));
    else if (!/^(from|to)\./.test(f.field)) words.push(step(plainWords(f.field), valueText(f.before), valueText(f.after)));
  }
  return words;
}

const colour = (v: unknown): string | undefined => (v === undefined ? undefined : COLOURS[v as ColourCode].name);
const degrees = (v: unknown): string | undefined => (v === undefined ? undefined : `${v as number} °C`);
const WIRE_WORDS: Readonly<Record<string, { readonly label: string; text(v: unknown): string | undefined }>> = {
  number: { label: 'number', text: (v) => (v === undefined ? undefined : `W${v as number}`) },
  areaMm2: { label: 'size', text: (v) => (v === undefined ? undefined : `${v as number} mm²`) },
  lengthM: { label: 'length', text: (v) => (v === undefined ? undefined : formatAmount(v as number, 'm')) },
  colour: { label: 'colour', text: colour },
  stripe: { label: 'stripe', text: (v) => colour(v) ?? 'none' },
  insulationC: { label: 'insulation', text: degrees },
  sleeved: { label: 'sleeve', text: (v) => (v ? 'yes' : 'no') },
  looped: { label: 'fine strands and a loop to spare', text: (v) => (v ? 'yes' : 'no') },
};

function step(label: string, before: string | undefined, after: string | undefined, typed?: FieldDiff): string {
  const text = (value: unknown, otherwise: string | undefined): string => (typeof value === 'string' && value !== '' ? value : (otherwise ?? 'not said'));
  return `${label} ${text(typed?.before, before)} → ${text(typed?.after, after)}`;
}

function endText(end: End, labels: ReadonlyMap<string, string>): string {
  return `${labels.get(end.part) ?? end.part} · ${end.terminal}`;
}

function wireName(wire: Wire): string {
  return wire.number === undefined ? wire.id : `W${wire.number}`;
}

function valueText(value: unknown, unit = ''): string {
  if (value === undefined) return 'automatic';
  if (typeof value === 'number') return formatAmount(value, unit);
  return typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
}

function plainWords(key: string): string {
  return key.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`);
}

function lowerFirst(text: string): string {
  return /^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}
