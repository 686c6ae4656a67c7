import { type Both, type Unlike, unlikeParts, unlikeWires } from '../../advise/unlike.ts';
import { diffPlans } from '../../plan/diff.ts';
import type { Id, Wire } from '../../plan/types.ts';
import { type Context, wireName } from '../context.ts';
import { type LengthUnit, lengthText } from '../figures.ts';
import type { Difference } from './types.ts';

/**
 * Parts and wires that are not the same in two wirings, with every automatic value worked out: a wire that came out
 * thicker by itself is another wire to buy. What was only moved on the drawing, noted on or numbered is the same.
 */
export function differencesOf(one: Context, other: Context, unit: LengthUnit): Difference[] {
  const diff = diffPlans(one.plan, other.plan);
  const names = (context: Context): Both['before'] => ({ endText: context.endLabel, zoneOf: context.zoneName });
  const both: Both = { before: names(one), after: names(other), lengthText: (m) => lengthText(m, unit), numbers: false };
  return [
    ...diff.parts.removed.map((p) => only('parts', p.id, 'one', one.label(p.id))),
    ...diff.parts.added.map((p) => only('parts', p.id, 'other', other.label(p.id))),
    ...diff.parts.changed.flatMap((row) => unlike('parts', row.id, other.label(row.id), unlikeParts(row, both))),
    ...diff.wires.removed.map((w) => only('wires', w.id, 'one', wireLabel(w, one))),
    ...diff.wires.added.map((w) => only('wires', w.id, 'other', wireLabel(w, other))),
    ...diff.wires.changed.flatMap((row) => unlike('wires', row.id, wireLabel(row.after, other), unlikeWires(row, both))),
  ];
}

function only(table: Difference['table'], id: Id, where: 'one' | 'other', name: string): Difference {
  return { table, id, where, name, how: [] };
}

function unlike(table: Difference['table'], id: Id, name: string, how: readonly Unlike[]): Difference[] {
  return how.length === 0 ? [] : [{ table, id, where: 'both', name, how }];
}

/** "W12, F1 Blade fuse · 2 → U1 Converter · in" */
function wireLabel(wire: Wire, context: Context): string {
  const name = wire.owner === 'vehicle' && wire.number === undefined ? 'Wire of the vehicle' : wireName(wire);
  return `${name}, ${context.endLabel(wire.from)} → ${context.endLabel(wire.to)}`;
}
