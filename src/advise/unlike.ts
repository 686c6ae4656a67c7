import { partKinds } from '../parts/index.ts';
import { type ChangedRow, type FieldDiff, madeFields } from '../plan/diff.ts';
import type { End, Id, Part, Value, Wire } from '../plan/types.ts';
import { colourText } from '../trade/colours.ts';
import { formatAmount } from '../trade/units.ts';

/** One thing about a part or wire that stands in two plans and is not alike: its name and both values, in words. */
export interface Unlike {
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

/** How one of the two plans calls its things. */
export interface Names {
  endText(end: End): string;
  zoneOf(part: Id): string;
}

export interface Both {
  readonly before: Names;
  readonly after: Names;
  readonly lengthText: (lengthM: number) => string;
  /** Is another number of the same wire a difference? Between two states of one build it is. */
  readonly numbers: boolean;
}

/** Lengths that differ by less are the same piece of wire, m. */
const SAME_M = 0.005;

/** What is not alike about a part. Its place on the drawing, notes and ticks are no difference; a value typed here and by default there is none either. */
export function unlikeParts(row: ChangedRow<Part>, both: Both): Unlike[] {
  return madeFields(row).flatMap((field) => partWords(field, row, both));
}

function partWords({ field, before, after }: FieldDiff, row: ChangedRow<Part>, both: Both): Unlike[] {
  if (field === 'kind') return differing('Kind', titleOf(row.before), titleOf(row.after));
  if (field === 'zone') return differing('Zone', both.before.zoneOf(row.id), both.after.zoneOf(row.id));
  if (field === 'name') return differing('Name', String(before ?? titleOf(row.before)), String(after ?? titleOf(row.after)));
  // Settings of another kind of part compare with nothing.
  if (!field.startsWith('settings.') || row.before.kind !== row.after.kind) return [];
  const setting = partKinds.get(row.after.kind)?.settings.find((s) => s.key === field.slice('settings.'.length));
  if (!setting) return [];
  const text = (value: unknown): string => {
    const v = (value ?? setting.default) as Value;
    if (typeof v === 'boolean') return v ? 'yes' : 'no';
    if (setting.type === 'choice') return setting.options.find((o) => o.value === v)?.label ?? String(v);
    return typeof v === 'number' && setting.type === 'number' ? formatAmount(v, setting.unit, 4) : String(v);
  };
  return differing(setting.label, text(before), text(after));
}

function titleOf(part: Part): string {
  return partKinds.get(part.kind)?.title ?? part.kind;
}

/** What is not alike about a wire. */
export function unlikeWires(row: ChangedRow<Wire>, both: Both): Unlike[] {
  const fields = new Set(madeFields(row).map((f) => f.field.split('.')[0] as string));
  const { before, after } = row;
  const say = (field: string, label: string, text: (wire: Wire, names: Names) => string): Unlike[] =>
    fields.has(field) ? differing(label, text(before, both.before), text(after, both.after)) : [];
  return [
    ...(both.numbers ? say('number', 'Number', (w) => (w.number === undefined ? 'none' : `W${w.number}`)) : []),
    ...say('from', 'From', (w, names) => names.endText(w.from)),
    ...say('to', 'To', (w, names) => names.endText(w.to)),
    ...say('areaMm2', 'Size', (w) => (w.areaMm2 === undefined ? 'not known' : `${w.areaMm2} mm²`)),
    ...(fields.has('colour') || fields.has('stripe') ? differing('Colour', colourOf(before), colourOf(after)) : []),
    ...(Math.abs((before.lengthM ?? 0) - (after.lengthM ?? 0)) > SAME_M ? say('lengthM', 'Length', (w) => both.lengthText(w.lengthM ?? Number.NaN)) : []),
    ...say('insulationC', 'Insulation', (w) => `${w.insulationC ?? 105} °C`),
    ...say('sleeved', 'Sleeve', (w) => (w.sleeved ? 'yes' : 'no')),
    ...say('looped', 'Loop where the way moves', (w) => (w.looped ? 'yes' : 'no')),
  ];
}

function colourOf(wire: Wire): string {
  return wire.colour ? colourText(wire.colour, wire.stripe).words : 'not chosen';
}

function differing(label: string, before: string, after: string): Unlike[] {
  return before === after ? [] : [{ label, before, after }];
}
