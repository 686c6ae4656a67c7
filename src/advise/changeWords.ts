import { namedEnd } from '../parts/index.ts';
import type { FieldDiff } from '../plan/diff.ts';
import type { End, Part, Plan, Wire, Zone } from '../plan/types.ts';
import { formatAmount } from '../trade/units.ts';
import { factWords } from './factWords.ts';
import { labelsOf, type Since } from './since.ts';
import { type Both, type Names, type Unlike, unlikeParts, unlikeWires } from './unlike.ts';

export interface ChangeLine {
  readonly what: 'added' | 'changed' | 'removed';
  readonly kind: 'part' | 'wire' | 'zone' | 'fact';
  readonly id: string;
  /** `W3`, `F1 Main fuse`, `Roof`. */
  readonly name: string;
  /** In words, each with before and after; from where to where for a wire that came or went. */
  readonly words: readonly string[];
}

/** Everything that changed, one line a thing: parts, wires, zones, then what figures rest on. Runs show in the lengths of their wires. */
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
  const names = (plan: Plan, labels: ReadonlyMap<string, string>): Names => ({
    endText: (end) => endText(plan, end, labels),
    zoneOf: (part) => plan.zones[plan.parts[part]?.zone ?? '']?.name ?? '',
  });
  const both: Both = { before: names(was, then), after: names(filled, now), lengthText: (m) => formatAmount(m, 'm'), numbers: true };
  const place = (plan: Plan, part: Part): string[] => [plan.zones[part.zone]?.name ?? ''].filter((t) => t !== '');
  return [
    ...diff.parts.added.map((p) => partLine('added', p, place(filled, p))),
    ...diff.parts.changed.map((row) => partLine('changed', row.after, unlikeParts(row, both).map(step))),
    ...diff.parts.removed.map((p) => partLine('removed', p, place(was, p), then)),
    ...diff.wires.added.map((w) => wireLine('added', w, [`${endText(filled, w.from, now)} → ${endText(filled, w.to, now)}`])),
    ...diff.wires.changed.map((row) => wireLine('changed', row.after, unlikeWires(row, both).map(step))),
    ...diff.wires.removed.map((w) => wireLine('removed', w, [`${endText(was, w.from, then)} → ${endText(was, w.to, then)}`])),
    ...diff.zones.added.map((z) => zoneLine('added', z)),
    ...diff.zones.changed.map(
      (row): ChangeLine => ({
        ...zoneLine('changed', row.after),
        words: row.fields.flatMap((f) =>
          f.field === 'name'
            ? [`was ${row.before.name}`]
            : f.field === 'maxC'
              ? [step({ label: 'up to', before: degrees(f.before), after: degrees(f.after) })]
              : [],
        ),
      }),
    ),
    ...diff.zones.removed.map((z) => zoneLine('removed', z)),
    ...diff.head.flatMap((field) => factLine(field)),
  ];
}

function factLine(field: FieldDiff): ChangeLine[] {
  const words = factWords(field);
  return words ? [{ what: 'changed', kind: 'fact', id: field.field, name: words.name, words: [`${words.before} → ${words.after}`] }] : [];
}

const degrees = (c: unknown): string => (typeof c === 'number' ? `${c} °C` : 'as usual there');

/** `size 1.5 mm² → 2.5 mm²` */
const step = ({ label, before, after }: Unlike): string => `${lowerFirst(label)} ${before} → ${after}`;

function endText(plan: Plan, end: End, labels: ReadonlyMap<string, string>): string {
  const part = plan.parts[end.part];
  const name = labels.get(end.part) ?? end.part;
  return part ? namedEnd(part, end.terminal, name) : name;
}

function wireName(wire: Wire): string {
  return wire.number === undefined ? wire.id : `W${wire.number}`;
}

function lowerFirst(text: string): string {
  return /^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}
