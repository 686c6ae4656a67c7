import type { Box } from '../drawing/types.ts';
import type { PlacedZone } from '../scene/types.ts';
import type { Camera, View } from './camera.ts';

/** A surface narrower than this shows one zone at a time, px. */
export const NARROW_PX = 600;
/** Largest zoom of a narrow zone, and smallest at which names can be read. */
const FILL = { max: 0.85, min: 0.5 } as const;
const EDGE_PX = 4;

/** One zone from its left edge, as wide as the view where names stay legible; from its top when it is higher than the view. */
export function zoneCamera(zone: Box, v: View): Camera {
  const zoom = Math.min(FILL.max, Math.max(FILL.min, (v.w - 2 * EDGE_PX) / Math.max(1, zone.w)));
  return { x: zone.x + (v.w / 2 - EDGE_PX) / zoom, y: zone.y + Math.min(zone.h, v.h / zoom) / 2, zoom };
}

/** Which zone stands at the left of the view, where a zone is read from. */
export function zoneShown(zones: readonly PlacedZone[], c: Camera, v: View): number {
  const left = c.x - v.w / 2 / c.zoom + Math.min(60, v.w / 4) / c.zoom;
  const at = zones.findIndex((z) => left < z.box.x + z.box.w);
  return at === -1 ? zones.length - 1 : at;
}

/** Is this view one zone filling the screen? Elsewhere a swipe only moves the drawing. */
export function fills(zone: Box, c: Camera, v: View): boolean {
  return Math.abs(zoneCamera(zone, v).zoom / c.zoom - 1) < 0.05;
}
