import * as edits from '../../src/plan/edits.ts';
import type { Edit, Plan } from '../../src/plan/types.ts';

/** Letters of the kinds that random steps make. */
export const letterOf = (kind: string): string => ({ 'blade-fuse': 'F', resistor: 'R', relay: 'K' })[kind] ?? 'X';

/** Makes a revision of a plan, filled as it stands unless said otherwise. */
export function revise(plan: Plan, filled = plan): Edit {
  const made = edits.makeRevision(plan, filled, letterOf, { date: '2025-03-04', note: ' First build ' });
  if (!made.ok) throw new Error(made.reason);
  return made.edit;
}

/** One of the steps that give and take numbers: a part, a wire, one of them removed, a revision; null where it cannot be. */
export function stepOf(plan: Plan, kind: number, a: number, b: number): Edit | null {
  const parts = Object.values(plan.parts).flatMap((p) => (p.kind === 'battery' ? [] : [p.id]));
  const wires = Object.keys(plan.wires);
  const [one, other] = [parts[a % parts.length], parts[b % parts.length]];
  if (kind === 0) return edits.addPart(plan, { kind: a % 2 ? 'resistor' : 'blade-fuse', zone: 'z2', x: 0, y: 0 }).edit;
  if (kind === 1 && one && other && one !== other) return edits.addWire(plan, { part: one, terminal: '1' }, { part: other, terminal: '2' }).edit;
  if (kind === 2 && one && parts.length > 2) return edits.removeItems(plan, [one]);
  if (kind === 3 && wires.length > 0) return edits.removeItems(plan, [], [wires[a % wires.length]!]);
  return kind === 4 ? revise(plan) : null;
}
