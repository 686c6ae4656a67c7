import { nameOf } from '../plan/rows.ts';
import type { Edit, Plan } from '../plan/types.ts';

/** Names of what an edit changes although it is in the vehicle already; [] when it touches nothing fitted. */
export function fittedTouched(plan: Plan, edit: Edit): readonly string[] {
  return edit.changes.flatMap((c) => {
    const part = c.table === 'parts' ? plan.parts[c.id] : undefined;
    if (part?.fitted) return [nameOf(part)];
    const wire = c.table === 'wires' ? plan.wires[c.id] : undefined;
    return wire?.fitted ? [`wire ${wire.number === undefined ? wire.id : `W${wire.number}`}`] : [];
  });
}
