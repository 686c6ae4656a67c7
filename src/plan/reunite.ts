import { sameRow } from './equal.ts';
import type { Plan } from './types.ts';

const TABLES = ['zones', 'runs', 'parts', 'wires'] as const;

/**
 * A plan whose rows are those of an earlier plan wherever they say the same, whole tables too. A copy that comes from the
 * page has new rows throughout: what is known of a row by identity would have to be worked out again after every edit.
 */
export function reunited(earlier: Plan, plan: Plan): Plan {
  const tables = Object.fromEntries(TABLES.map((name) => [name, table(earlier[name], plan[name])]));
  return { ...plan, ...tables, vehicle: sameRow(earlier.vehicle, plan.vehicle) ? earlier.vehicle : plan.vehicle };
}

function table(earlier: Readonly<Record<string, unknown>>, rows: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const before = Object.keys(earlier);
  let isSame = before.length === Object.keys(rows).length;
  const made: Record<string, unknown> = {};
  let at = 0;
  for (const [id, row] of Object.entries(rows)) {
    const old = earlier[id];
    const stays = old !== undefined && sameRow(old, row);
    made[id] = stays ? old : row;
    if (!stays || before[at++] !== id) isSame = false;
  }
  return isSame ? earlier : made;
}
