import { merge } from '../plan/apply.ts';
import { setWire, setZone } from '../plan/edits.ts';
import { RANGES } from '../plan/limits.ts';
import type { Edit, Plan } from '../plan/types.ts';
import { ZONE } from './layout.ts';
import type { PlacedZone } from './types.ts';

/** The width a zone may have that lies nearest to a wanted one: whole steps, never less than what it holds. */
export function widthNear(zone: PlacedZone, wantedW: number): number {
  const most = Math.floor(RANGES.zones.width.max / ZONE.step) * ZONE.step;
  return Math.min(most, Math.max(zone.leastW, Math.round(wantedW / ZONE.step) * ZONE.step));
}

/**
 * The edit that makes a zone wider or narrower. What stands to its right moves along, and so do bends that a person
 * has put there; those in a strip that goes end at the new edge.
 * @param zone as it is drawn
 * @param width null = as wide as its parts need
 */
export function widthEdit(plan: Plan, zone: PlacedZone, width: number | null): Edit {
  const edge = zone.box.x + zone.box.w;
  const by = (width === null ? zone.leastW : widthNear(zone, width)) - zone.box.w;
  const moved = (x: number): number => (x >= edge ? x + by : Math.min(x, edge + by));
  let edit = setZone(plan, zone.id, { width: width === null ? null : widthNear(zone, width) });
  for (const wire of by === 0 ? [] : Object.values(plan.wires)) {
    if (!wire.bends?.some(({ x }) => moved(x) !== x)) continue;
    const bends = wire.bends.map(({ x, y }) => ({ x: moved(x), y }));
    edit = merge(edit, setWire(plan, wire.id, { bends }));
  }
  return { ...edit, intent: 'zone.width', label: by === 0 ? `Width of ${zone.name}` : `Make ${zone.name} ${by > 0 ? 'wider' : 'narrower'}` };
}
