import { partKinds } from '../../parts/index.ts';
import { type ChangedRow, diffPlans, type FieldDiff, madeFields } from '../../plan/diff.ts';
import type { Id, Part, Value, Wire } from '../../plan/types.ts';
import { colourText } from '../../trade/colours.ts';
import { formatAmount } from '../../trade/units.ts';
import type { ColourCode } from '../../trade/words.ts';
import { type Context, wireName } from '../context.ts';
import { type LengthUnit, lengthText } from '../figures.ts';
import type { Difference, Unlike } from './types.ts';

/** Lengths that differ by less are the same piece of wire, m. */
const SAME_M = 0.005;

/**
 * Parts and wires that are not the same in two wirings, with every automatic value worked out: a wire that came out
 * thicker by itself is another wire to buy. What was only moved on the drawing, noted on or numbered is the same.
 */
export function differencesOf(one: Context, other: Context, unit: LengthUnit): Difference[] {
  const diff = diffPlans(one.plan, other.plan);
  return [
    ...diff.parts.removed.map((p) => only('parts', p.id, 'one', one.label(p.id))),
    ...diff.parts.added.map((p) => only('parts', p.id, 'other', other.label(p.id))),
    ...diff.parts.changed.flatMap((row) => changedPart(row, one, other)),
    ...diff.wires.removed.map((w) => only('wires', w.id, 'one', wireLabel(w, one))),
    ...diff.wires.added.map((w) => only('wires', w.id, 'other', wireLabel(w, other))),
    ...diff.wires.changed.flatMap((row) => changedWire(row, one, other, unit)),
  ];
}

function only(table: Difference['table'], id: Id, where: 'one' | 'other', name: string): Difference {
  return { table, id, where, name, how: [] };
}

/** "W12, F1 Blade fuse · 2 → U1 Converter · in" */
function wireLabel(wire: Wire, context: Context): string {
  const name = wire.owner === 'vehicle' && wire.number === undefined ? 'Wire of the vehicle' : wireName(wire);
  return `${name}, ${context.endLabel(wire.from)} → ${context.endLabel(wire.to)}`;
}

function changedPart(row: ChangedRow<Part>, one: Context, other: Context): Difference[] {
  const how = madeFields(row).flatMap((field) => partWords(field, row, one, other));
  return how.length === 0 ? [] : [{ table: 'parts', id: row.id, where: 'both', name: other.label(row.id), how }];
}

function partWords({ field, before, after }: FieldDiff, row: ChangedRow<Part>, one: Context, other: Context): Unlike[] {
  if (field === 'kind') return [pair('Part', titleOf(row.before), titleOf(row.after))];
  if (field === 'zone') return [pair('Zone', one.zoneName(row.id), other.zoneName(row.id))];
  if (field === 'name') return [pair('Name', String(before ?? titleOf(row.before)), String(after ?? titleOf(row.after)))];
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
  // Typed here and by default there: the same value.
  return text(before) === text(after) ? [] : [pair(setting.label, text(before), text(after))];
}

function titleOf(part: Part): string {
  return partKinds.get(part.kind)?.title ?? part.kind;
}

function changedWire(row: ChangedRow<Wire>, one: Context, other: Context, unit: LengthUnit): Difference[] {
  const fields = new Set(madeFields(row).map((f) => f.field.split('.')[0] as string));
  const { before, after } = row;
  const how: Unlike[] = [];
  const say = (field: string, label: string, text: (wire: Wire, context: Context) => string): void => {
    if (fields.has(field)) how.push(...differing(label, text(before, one), text(after, other)));
  };
  say('from', 'From', (w, c) => c.endLabel(w.from));
  say('to', 'To', (w, c) => c.endLabel(w.to));
  say('areaMm2', 'Size', (w) => (w.areaMm2 === undefined ? 'not known' : `${w.areaMm2} mm²`));
  if (fields.has('colour') || fields.has('stripe')) how.push(...differing('Colour', colourOf(before), colourOf(after)));
  if (Math.abs((before.lengthM ?? 0) - (after.lengthM ?? 0)) > SAME_M) say('lengthM', 'Length', (w) => lengthText(w.lengthM ?? Number.NaN, unit));
  say('insulationC', 'Insulation', (w) => `${w.insulationC ?? 105} °C`);
  say('sleeved', 'Sleeve', (w) => (w.sleeved ? 'yes' : 'no'));
  say('looped', 'Loop where the way moves', (w) => (w.looped ? 'yes' : 'no'));
  return how.length === 0 ? [] : [{ table: 'wires', id: row.id, where: 'both', name: wireLabel(after, other), how }];
}

function differing(label: string, one: string, other: string): Unlike[] {
  return one === other ? [] : [pair(label, one, other)];
}

function colourOf(wire: Wire): string {
  return wire.colour ? colourText(wire.colour, wire.stripe as ColourCode | undefined).words : 'not chosen';
}

function pair(label: string, one: string, other: string): Unlike {
  return { label, one, other };
}
