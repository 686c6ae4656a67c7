import { viewsOf } from '../analysis/views.ts';
import type { End, Id, Plan } from '../plan/types.ts';
import type { Selection } from '../state/types.ts';
import { endText, terminalOf } from './sensibleEnds.ts';

/** What was found and may be taken. */
export interface FoundRow {
  readonly key: string;
  /** As printed on the sheet, `F2` or `W12`; '' where there is none. */
  readonly number: string;
  readonly text: string;
  readonly place: string;
}

/** A part or wire as a person looks for it. */
export interface Row extends FoundRow {
  readonly choose: Selection;
}

/**
 * Every part and wire of a plan, in the order of making.
 * @param tags what is written at the wires, by id
 */
export function rowsOf(plan: Plan, tags: ReadonlyMap<Id, string>): Row[] {
  const parts = [...viewsOf(plan)].map(([id, { item, name, part }]): Row => {
    return { key: id, number: item, text: name, place: plan.zones[part.zone]?.name ?? '', choose: { parts: [id], wires: [] } };
  });
  const endOf = (end: End): string => {
    const [part, terminal] = [plan.parts[end.part], terminalOf(plan, end)];
    return part && terminal ? endText(part, terminal) : '';
  };
  const wires = Object.values(plan.wires).map(
    (wire): Row => ({
      key: wire.id,
      number: tags.get(wire.id) ?? '',
      text: `${endOf(wire.from)} to ${endOf(wire.to)}`,
      place: wire.owner === 'vehicle' ? 'the vehicle’s lead' : 'wire',
      choose: { parts: [], wires: [wire.id] },
    }),
  );
  return [...parts, ...wires];
}

/** Rows that hold every typed word; a number that is typed whole comes first, then names that begin so. */
export function findRows(rows: readonly Row[], typed: string): readonly Row[] {
  const wanted = typed.trim().toLowerCase();
  if (wanted === '') return rows;
  const rank = (r: Row): number => {
    if (r.number.toLowerCase() === wanted) return 0;
    if (r.text.toLowerCase().startsWith(wanted)) return 1;
    return wanted.split(/\s+/).every((w) => `${r.number} ${r.text} ${r.place}`.toLowerCase().includes(w)) ? 2 : 3;
  };
  return rows
    .map((row) => ({ row, rank: rank(row) }))
    .filter((r) => r.rank < 3)
    .sort((a, b) => a.rank - b.rank)
    .map((r) => r.row);
}
