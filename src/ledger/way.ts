import { length, type UnitChoice } from '../faces/format.ts';
import { END_ALLOWANCE_M, wireRoute } from '../plan/lengths.ts';
import type { Plan, Wire } from '../plan/types.ts';

/**
 * The way that a wire takes, as it adds up to its length: "Engine bay – 1.4 m – Behind the radio, and 0.3 m at each
 * end"; with the zones alone where the length was typed, and null where no run joins its ends.
 */
export function wayText(plan: Plan, wire: Wire, units: UnitChoice): string | null {
  const route = wireRoute(plan, wire);
  if (!route) return null;
  const names = route.zones.map((id) => plan.zones[id]?.name ?? id);
  if (names.length === 1) return `within ${names[0]}`;
  const runs = Object.values(plan.runs);
  const words = route.zones.slice(1).map((b, i) => {
    const a = route.zones[i];
    const run = runs.find((r) => (r.a === a && r.b === b) || (r.a === b && r.b === a));
    return route.typed || !run ? `– ${names[i + 1]}` : `– ${length(run.lengthM, units)} – ${names[i + 1]}`;
  });
  const ends = route.typed ? '; its length was typed' : `, and ${length(END_ALLOWANCE_M, units)} at each end`;
  return `${names[0]} ${words.join(' ')}${ends}`;
}
