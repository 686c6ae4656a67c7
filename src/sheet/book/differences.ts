import { partKind } from '../../parts/index.ts';
import type { Setting } from '../../parts/types.ts';
import { withUnit } from '../../parts/values.ts';
import type { Id, Plan, Value, Wire } from '../../plan/types.ts';
import type { Bench } from '../../rules/book/bench.ts';
import type { Finding } from '../../rules/types.ts';

/** What stands beside parts and wires of one example drawing, so that the eye finds what the other one has otherwise. */
export interface Notes {
  /** "Rating: 10 A", by part. */
  readonly parts: ReadonlyMap<Id, readonly string[]>;
  /** "W2 0.5 mm² 2.10 m", by wire. */
  readonly wires: ReadonlyMap<Id, string>;
}

/**
 * What of one example is otherwise in the other one, and the numbers of wires that its text names.
 * @param filled the plan of `here` with its automatic values
 * @param about what its text speaks of; null where it has none
 */
export function notesFor(here: Bench, there: Bench, filled: Plan, about: Finding | null): Notes {
  const parts = new Map<Id, string[]>();
  const wires = new Map<Id, string>();
  for (const part of Object.values(here.plan.parts)) {
    const other = twin(here, there, there.plan.parts, part.id);
    const lines = other ? partKind(part.kind).settings.filter((s) => part.settings[s.key] !== other.settings[s.key]) : [];
    if (lines.length > 0 && lines.length <= MOST_LINES)
      parts.set(
        part.id,
        lines.map((s) => `${s.label}: ${valueText(s, filled.parts[part.id]?.settings[s.key] ?? s.default)}`),
      );
  }
  const named = new Set([...`${about?.what ?? ''} ${about?.todo ?? ''}`.matchAll(/\bW(\d+)\b/g)].map((m) => Number(m[1])));
  for (const wire of Object.values(here.plan.wires)) {
    const other = twin(here, there, there.plan.wires, wire.id);
    const number = filled.wires[wire.id]?.number;
    const isNamed = number !== undefined && named.has(number);
    const changed = other && sameEnds(here, wire, there, other) ? MEASURES.filter((key) => wire[key] !== other[key]) : [];
    if (!isNamed && changed.length === 0 && about?.subject.id !== wire.id) continue;
    const text = [isNamed ? `W${number}` : '', measures(filled.wires[wire.id] ?? wire, changed)].filter(Boolean).join(' ');
    if (text !== '') wires.set(wire.id, text);
  }
  return { parts, wires };
}

/** More than these are a part of another make: its text says what matters. */
const MOST_LINES = 2;
const MEASURES = ['areaMm2', 'lengthM', 'colour', 'stripe', 'insulationC', 'looped'] as const;

function twin<T>(here: Bench, there: Bench, rows: Readonly<Record<Id, T>>, id: Id): T | undefined {
  const name = here.nameOf(id);
  const other = name === null ? null : there.idOf(name);
  return other === null ? undefined : rows[other];
}

/** A wire of the same name that leads elsewhere has its length from there. */
function sameEnds(here: Bench, wire: Wire, there: Bench, other: Wire): boolean {
  const end = (b: Bench, e: Wire['from']): string => `${b.nameOf(e.part)}.${e.terminal}`;
  return end(here, wire.from) === end(there, other.from) && end(here, wire.to) === end(there, other.to);
}

function measures(wire: Wire, changed: readonly (typeof MEASURES)[number][]): string {
  if (wire.owner === 'vehicle') return '';
  return [
    wire.areaMm2 === undefined ? '' : `${wire.areaMm2} mm²`,
    wire.lengthM === undefined ? '' : `${wire.lengthM.toFixed(2)} m`,
    changed.includes('colour') ? [wire.colour, wire.stripe].filter(Boolean).join('/') : '',
    changed.includes('insulationC') ? `${wire.insulationC} °C` : '',
    changed.includes('looped') && wire.looped ? 'with a loop' : '',
  ]
    .filter(Boolean)
    .join(' ');
}

function valueText(setting: Setting, value: Value): string {
  if (setting.type === 'flag') return value ? 'yes' : 'no';
  if (setting.type === 'choice') return setting.options.find((o) => o.value === value)?.label ?? String(value);
  return setting.type === 'number' ? withUnit(Number(value), setting.unit) : String(value);
}
