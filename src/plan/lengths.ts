import type { Id, Plan, Run, Wire } from './types.ts';

/** Added in each end zone, from the mouth of the run to the terminal, m (common practice, no source). */
export const END_ALLOWANCE_M = 0.3;

export interface Way {
  /** Cable length over the runs alone, m. */
  readonly lengthM: number;
  /** Zones passed, both ends included, in order. */
  readonly zones: readonly Id[];
}

export interface WireRoute {
  readonly lengthM: number;
  /** Zones crossed in order; only the two ends when the length is typed and no run joins them. */
  readonly zones: readonly Id[];
  /** True when the person typed the length. */
  readonly typed: boolean;
}

const cache = new WeakMap<Plan['runs'], Map<Id, ReadonlyMap<Id, Way>>>();

/** Shortest way over runs between two zones; null when no chain of runs joins them. */
export function shortestWay(plan: Plan, from: Id, to: Id): Way | null {
  if (from === to) return { lengthM: 0, zones: [from] };
  let byZone = cache.get(plan.runs);
  if (!byZone) {
    byZone = new Map();
    cache.set(plan.runs, byZone);
  }
  let ways = byZone.get(from);
  if (!ways) {
    ways = waysFrom(plan, from);
    byZone.set(from, ways);
  }
  return ways.get(to) ?? null;
}

/**
 * Length of a wire and the zones it crosses: the shortest way over runs plus 0.3 m in each end zone (0.3 m in all for
 * a wire that stays in one zone), unless typed. Null when the zones are not joined and no length is typed.
 */
export function wireRoute(plan: Plan, wire: Wire): WireRoute | null {
  const a = plan.parts[wire.from.part]?.zone;
  const b = plan.parts[wire.to.part]?.zone;
  if (a === undefined || b === undefined) return null;
  const way = shortestWay(plan, a, b);
  if (wire.lengthM !== undefined) return { lengthM: wire.lengthM, zones: way?.zones ?? [a, b], typed: true };
  if (!way) return null;
  const allowance = a === b ? END_ALLOWANCE_M : 2 * END_ALLOWANCE_M;
  return { lengthM: Math.round((way.lengthM + allowance) * 1000) / 1000, zones: way.zones, typed: false };
}

/** Runs along a wire's way on which something moves. */
export function movingRuns(plan: Plan, wire: Wire): readonly Run[] {
  const moving = Object.values(plan.runs).filter((r) => r.moving !== undefined);
  if (moving.length === 0) return [];
  const zones = wireRoute(plan, wire)?.zones ?? [];
  return zones.slice(1).flatMap((b, i) => moving.filter((r) => (r.a === zones[i] && r.b === b) || (r.b === zones[i] && r.a === b)));
}

/** Dijkstra over a handful of zones; ties go to the zone found first, so that the result does not wander. */
function waysFrom(plan: Plan, from: Id): ReadonlyMap<Id, Way> {
  const done = new Map<Id, Way>();
  const open = new Map<Id, Way>([[from, { lengthM: 0, zones: [from] }]]);
  while (open.size > 0) {
    let zone: Id = '';
    let way: Way = { lengthM: Number.POSITIVE_INFINITY, zones: [] };
    for (const [id, candidate] of open) {
      if (candidate.lengthM < way.lengthM) {
        zone = id;
        way = candidate;
      }
    }
    if (way.zones.length === 0) break;
    open.delete(zone);
    done.set(zone, way);
    for (const run of Object.values(plan.runs)) {
      const next = run.a === zone ? run.b : run.b === zone ? run.a : null;
      if (next === null || done.has(next)) continue;
      const lengthM = way.lengthM + run.lengthM;
      if (lengthM < (open.get(next)?.lengthM ?? Number.POSITIVE_INFINITY)) open.set(next, { lengthM, zones: [...way.zones, next] });
    }
  }
  return done;
}
