import type { Box } from '../drawing/types.ts';
import type { PlacedZone } from '../scene/types.ts';
import type { Camera, View } from './camera.ts';

/** A surface narrower than this shows one zone at a time, px. */
export const NARROW_PX = 600;
/** Largest zoom of a narrow zone; up to which it may be higher than the view; and smallest at which names can be read. */
const FILL = { max: 1.25, high: 0.85, min: 0.5 } as const;
const EDGE_PX = 4;
/** The steps from zone to zone lie over the foot of the view, px. */
const STEPS_PX = 60;

/** One zone from its top left corner, as wide as the view where names stay legible; a narrow one as large as its height allows. */
export function zoneCamera(zone: Box, v: View): Camera {
  const most = Math.min(FILL.max, Math.max(FILL.high, (v.h - STEPS_PX) / Math.max(1, zone.h)));
  const zoom = Math.min(most, Math.max(FILL.min, (v.w - 2 * EDGE_PX) / Math.max(1, zone.w)));
  return { x: zone.x + (v.w / 2 - EDGE_PX) / zoom, y: zone.y + v.h / 2 / zoom, zoom };
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
