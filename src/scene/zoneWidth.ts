import { setZone } from '../plan/edits.ts';
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
 * The edit that makes a zone wider or narrower. What stands to its right moves along.
 * @param zone as it is drawn
 * @param width null = as wide as its parts need
 */
export function widthEdit(plan: Plan, zone: PlacedZone, width: number | null): Edit {
  const by = (width === null ? zone.leastW : widthNear(zone, width)) - zone.box.w;
  const edit = setZone(plan, zone.id, { width: width === null ? null : widthNear(zone, width) });
  return { ...edit, intent: 'zone.width', label: by === 0 ? `Width of ${zone.name}` : `Make ${zone.name} ${by > 0 ? 'wider' : 'narrower'}` };
}
