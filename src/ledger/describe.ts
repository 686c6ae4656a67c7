import { factWords } from '../advise/factWords.ts';
import { amount, significant } from '../faces/format.ts';
import { namedEnd, partKinds } from '../parts/index.ts';
import type { Change, Edit, End, Part, Plan, Value, Wire } from '../plan/types.ts';
import { COLOURS } from '../trade/colours.ts';

/** What an edit would change, one plain line for each thing: "Fuse: rating 15 A -> 5 A". */
export function describeEdit(plan: Plan, edit: Edit): readonly string[] {
  const lines = edit.changes.flatMap((c) => linesOf(plan, edit, c));
  return [...new Set(lines)];
}

function linesOf(plan: Plan, edit: Edit, change: Change): readonly string[] {
  switch (change.table) {
    case 'parts':
      if (change.before === null) return change.after ? [`New part: ${titleOf(change.after)}.`] : [];
      if (change.after === null) return [`${titleOf(change.before)} goes.`];
      return partLines(change.before, change.after);
    case 'wires':
      if (change.before === null) return change.after ? [`New wire: ${ends(plan, edit, change.after)}.`] : [];
      if (change.after === null) return [`The wire ${ends(plan, edit, change.before)} goes.`];
      return wireLines(plan, edit, change.before, change.after);
    case 'zones':
      return [`Zone ${(change.after ?? change.before)?.name ?? change.id} changes.`];
    case 'runs':
      if (change.after && change.before?.lengthM === change.after.lengthM) return ['What moves along a run changes.'];
      return change.after ? [`A run between two zones is now ${significant(change.after.lengthM, 3)} m long.`] : ['A run between two zones goes.'];
    case 'revisions':
      return change.after && change.before === null ? [`Revision ${change.after.number} is made.`] : [];
    case 'head':
      return headLines(change.before.vehicle, change.after.vehicle);
  }
}

function titleOf(part: Part): string {
  return part.name ?? partKinds.get(part.kind)?.title ?? part.kind;
}

function partLines(before: Part, after: Part): string[] {
  const title = titleOf(after);
  const lines: string[] = [];
  const kind = partKinds.get(after.kind);
  if (before.kind !== after.kind) lines.push(`${titleOf(before)} becomes ${title}.`);
  for (const key of new Set([...Object.keys(before.settings), ...Object.keys(after.settings)])) {
    const was = before.settings[key];
    const now = after.settings[key];
    if (was === now) continue;
    const setting = kind?.settings.find((s) => s.key === key);
    const unit = setting?.type === 'number' ? setting.unit : '';
    const label = setting ? lowerFirst(setting.label) : key;
    // What is no longer typed is worked out again, or stands at its default.
    const [from, to] = [was, now].map((value) => valueText(value ?? (setting?.automatic ? undefined : setting?.default), unit, setting));
    if (from !== to) lines.push(`${title}: ${label} ${from} → ${to}.`);
  }
  if (before.zone !== after.zone) lines.push(`${title} moves to another zone.`);
  else if (before.x !== after.x || before.y !== after.y) lines.push(`${title} moves on the drawing.`);
  if (before.turn !== after.turn) lines.push(`${title} turns.`);
  if (before.name !== after.name) lines.push(`${titleOf(before)} is renamed ${title}.`);
  return lines;
}

/** A label inside a sentence: "Rating" becomes "rating", "GPIO pull" stays. */
function lowerFirst(label: string): string {
  return /^\p{Lu}\p{Ll}/u.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
}

function valueText(
  value: Value | undefined,
  unit: string,
  setting: { type: string; options?: readonly { value: string; label: string }[] } | undefined,
): string {
  if (value === undefined) return 'automatic';
  if (typeof value === 'number') return amount(value, unit);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return setting?.options?.find((o) => o.value === value)?.label ?? value;
}

function ends(plan: Plan, edit: Edit, wire: Wire): string {
  const name = (end: End): string => {
    const made = edit.changes.find((c) => c.table === 'parts' && c.id === end.part && c.after !== null);
    const part = plan.parts[end.part] ?? (made?.table === 'parts' ? made.after : null);
    return part ? namedEnd(part, end.terminal) : end.part;
  };
  return `${name(wire.from)} – ${name(wire.to)}`;
}

function wireLines(plan: Plan, edit: Edit, before: Wire, after: Wire): string[] {
  const lines: string[] = [];
  const what = before.number === undefined ? `Wire ${ends(plan, edit, before)}` : `Wire W${before.number}`;
  const say = (label: string, was: string | undefined, now: string | undefined) => {
    if (was !== now) lines.push(`${what}: ${label} ${was ?? 'automatic'} → ${now ?? 'automatic'}.`);
  };
  if (ends(plan, edit, before) !== ends(plan, edit, after)) lines.push(`${what} now goes ${ends(plan, edit, after)}.`);
  const mm2 = (a: number | undefined) => (a === undefined ? undefined : `${significant(a, 3)} mm²`);
  say('size', mm2(before.areaMm2), mm2(after.areaMm2));
  say(
    'length',
    before.lengthM === undefined ? undefined : `${significant(before.lengthM, 3)} m`,
    after.lengthM === undefined ? undefined : `${significant(after.lengthM, 3)} m`,
  );
  say('colour', before.colour && COLOURS[before.colour].name, after.colour && COLOURS[after.colour].name);
  say('stripe', before.stripe && COLOURS[before.stripe].name, after.stripe && COLOURS[after.stripe].name);
  say(
    'insulation',
    before.insulationC === undefined ? undefined : `${before.insulationC} °C`,
    after.insulationC === undefined ? undefined : `${after.insulationC} °C`,
  );
  if ((before.sleeved ?? false) !== (after.sleeved ?? false)) lines.push(`${what} ${after.sleeved ? 'gets a sleeve' : 'loses its sleeve'}.`);
  if ((before.looped ?? false) !== (after.looped ?? false))
    lines.push(`${what} ${after.looped ? 'gets' : 'loses'} fine strands and a loop where the way moves.`);
  return lines;
}

function headLines(before: Plan['vehicle'], after: Plan['vehicle']): string[] {
  return Object.keys(after)
    .filter((key) => before[key as keyof Plan['vehicle']] !== after[key as keyof Plan['vehicle']])
    .map((key) => {
      const words = factWords({ field: `vehicle.${key}`, before: before[key as keyof Plan['vehicle']], after: after[key as keyof Plan['vehicle']] });
      return `Vehicle, ${lowerFirst(words?.name ?? key)}: ${words?.before} → ${words?.after}.`;
    });
}
