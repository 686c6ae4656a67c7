import type { Box, Point } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import { ZONE } from '../scene/layout.ts';
import type { PlacedZone } from '../scene/types.ts';
import { type Camera, toScreen, type View, visibleBox } from './camera.ts';
import type { EdgeView } from './live.ts';

/** How far from the line a press still means it, px: a finger has 44 px in all. */
export const EDGE_PX = { mouse: 5, touch: 22 } as const;
/** The grip keeps so far from the sides of the view, px. */
const INSET_PX = 9;

/** Where the right edge of a zone is shown, world units. */
export interface ShownEdge {
  readonly x: number;
  /** Where it stood when it was taken; null = it is not in the hand. */
  readonly from: number | null;
  readonly view: Box;
  /** Middle of the grip; null = none. */
  readonly grip: Point | null;
}

/** The edge in the hand or under the pointer, else that of the chosen zone; null = none is drawn. */
export function edgeShown(zones: readonly PlacedZone[], live: EdgeView | null, chosen: Id | null, camera: Camera, view: View): ShownEdge | null {
  const zone = zones.find((z) => z.id === (live?.zone ?? chosen));
  if (!zone) return null;
  const x = live?.x ?? zone.box.x + zone.box.w;
  const seen = visibleBox(camera, view);
  const inset = INSET_PX / camera.zoom;
  const inside = x >= seen.x && x <= seen.x + seen.w;
  const grip = inside && chosen === zone.id ? { x: Math.min(Math.max(x, seen.x + inset), seen.x + seen.w - inset), y: camera.y } : null;
  // Taller than the view: it is still there while the drawing is moved. Names and lengths of runs stand above it.
  const top = Math.max(ZONE.head, seen.y - seen.h);
  return { x, from: live?.from ?? null, view: { ...seen, y: top, h: Math.max(0, seen.y + 2 * seen.h - top) }, grip };
}

/** The zone whose edge a mouse at world x is on: of several in reach the nearest. */
export function edgeUnder(zones: readonly PlacedZone[], x: number, camera: Camera): Id | null {
  let best: Id | null = null;
  let least = EDGE_PX.mouse / camera.zoom;
  for (const { id, box } of zones) {
    const d = Math.abs(box.x + box.w - x);
    if (d > least) continue;
    least = d;
    best = id;
  }
  return best;
}

/**
 * Is a finger at surface x on the edge of this zone? At the side of the view the room for it moves in, so that all of
 * it is on the glass.
 */
export function onEdge(zone: PlacedZone, px: number, camera: Camera, view: View): boolean {
  const edge = toScreen(camera, view, zone.box.x + zone.box.w, 0).x;
  if (edge < 0 || edge > view.w) return false;
  const middle = Math.min(Math.max(edge, EDGE_PX.touch), view.w - EDGE_PX.touch);
  return Math.abs(px - middle) <= EDGE_PX.touch;
}

/** The zone whose name strip holds a point. */
export function headAt(zones: readonly PlacedZone[], x: number, y: number): Id | null {
  return zones.find(({ box }) => y >= box.y && y < box.y + ZONE.head && x >= box.x && x < box.x + box.w)?.id ?? null;
}

/** What the pointer says over an edge: which ways it can go. */
export function edgeCursor({ box, leastW }: PlacedZone): string {
  return box.w > leastW ? 'col-resize' : 'e-resize';
}
