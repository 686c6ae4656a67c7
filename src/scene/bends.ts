import type { Point } from '../drawing/types.ts';
import { merge } from '../plan/apply.ts';
import { setWire } from '../plan/edits.ts';
import type { Bend, Edit, Plan } from '../plan/types.ts';
import { zoneAt } from './layout.ts';
import type { PlacedZone } from './types.ts';

/** Wires may run so far beside the outermost zones, u. */
const BESIDE = 20;

/**
 * Where bends that a person has put stand on the drawing. Each keeps its place in its zone; one in a strip that is no
 * longer there stands at the edge, one in a zone that is not drawn is left out.
 */
export function bendsOnDrawing(bends: readonly Bend[], zones: readonly PlacedZone[]): Point[] {
  return bends.flatMap(({ x, y, zone: id }): Point[] => {
    if (id === undefined) return [{ x, y }];
    const at = zones.findIndex((z) => z.id === id);
    const zone = zones[at];
    if (!zone) return [];
    const least = at === 0 ? -BESIDE : 0;
    const most = zone.box.w + (at === zones.length - 1 ? BESIDE : 0);
    return [{ x: zone.box.x + Math.min(most, Math.max(least, x)), y }];
  });
}

/** Points of the drawing as bends, each tied to the zone it lies in; beside the outermost zones, to the nearest. */
export function bendsInZones(points: readonly Point[], zones: readonly PlacedZone[]): Bend[] {
  return points.map(({ x, y }) => {
    const zone = zoneAt(zones, x);
    return zone ? { x: x - zone.box.x, y, zone: zone.id } : { x, y };
  });
}

/**
 * The same edit; bends of an older edition, which lie in no zone, are tied to those they lie in now, before anything
 * shifts.
 * @param zones as they are drawn
 */
export function tyingBends(plan: Plan, edit: Edit, zones: readonly PlacedZone[]): Edit {
  if (edit.changes.length === 0 || zones.length === 0) return edit;
  const loose = Object.values(plan.wires).filter((w) => w.bends?.some((b) => b.zone === undefined));
  return loose.reduceRight((whole, wire) => {
    const bends = bendsInZones(bendsOnDrawing(wire.bends ?? [], zones), zones);
    return merge(setWire(plan, wire.id, { bends }), whole);
  }, edit);
}
