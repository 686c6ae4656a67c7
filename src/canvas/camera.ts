import type { Box, Point } from '../drawing/types.ts';

/** What the surface looks at: world point at its middle, and pixels per drawing unit. */
export interface Camera {
  readonly x: number;
  readonly y: number;
  readonly zoom: number;
}
/** Size of the surface, CSS pixels. */
export interface View {
  readonly w: number;
  readonly h: number;
}

export const ZOOM = { min: 0.15, max: 4 } as const;

/** World to surface pixels. */
export function toScreen(c: Camera, v: View, x: number, y: number): Point {
  return { x: (x - c.x) * c.zoom + v.w / 2, y: (y - c.y) * c.zoom + v.h / 2 };
}

/** Surface pixels to world. */
export function toWorld(c: Camera, v: View, x: number, y: number): Point {
  return { x: (x - v.w / 2) / c.zoom + c.x, y: (y - v.h / 2) / c.zoom + c.y };
}

/** The part of the world on the surface, with a margin in pixels around it. */
export function visibleBox(c: Camera, v: View, margin = 0): Box {
  const w = (v.w + 2 * margin) / c.zoom;
  const h = (v.h + 2 * margin) / c.zoom;
  return { x: c.x - w / 2, y: c.y - h / 2, w, h };
}

export function panned(c: Camera, dx: number, dy: number): Camera {
  return { ...c, x: c.x - dx / c.zoom, y: c.y - dy / c.zoom };
}

/** The camera of a surface that has another size now: what stood at its top left corner stays there. */
export function resized(c: Camera, from: View, to: View): Camera {
  return { ...c, x: c.x + (to.w - from.w) / 2 / c.zoom, y: c.y + (to.h - from.h) / 2 / c.zoom };
}

/** Zooms by a factor and keeps the world point under the given pixel where it is. */
export function zoomedAt(c: Camera, v: View, px: number, py: number, factor: number): Camera {
  const zoom = Math.min(ZOOM.max, Math.max(ZOOM.min, c.zoom * factor));
  const at = toWorld(c, v, px, py);
  return { x: at.x - (px - v.w / 2) / zoom, y: at.y - (py - v.h / 2) / zoom, zoom };
}

/** Shows the whole box, never larger than 1.25 times its natural size; spare height goes below rather than above. */
export function fitted(box: Box, v: View, pad = 16): Camera {
  const wanted = Math.min(1.25, (v.w - 2 * pad) / Math.max(1, box.w), (v.h - 2 * pad) / Math.max(1, box.h));
  const zoom = Math.min(ZOOM.max, Math.max(ZOOM.min, wanted));
  const spare = Math.max(0, v.h / zoom - box.h);
  return { x: box.x + box.w / 2, y: box.y + box.h / 2 + spare / 4, zoom };
}

/** Smallest zoom at which a plan is opened: below it names cannot be read, so a small screen starts at the left. */
const LEGIBLE = 0.5;

/** First look at a plan: the whole of it if that is legible, else full height from its left edge. */
export function firstLook(box: Box, v: View): Camera {
  const all = fitted(box, v);
  if (all.zoom >= LEGIBLE) return all;
  const zoom = Math.min(1, Math.max(LEGIBLE, (v.h - 16) / Math.max(1, box.h)));
  return { x: box.x + Math.min(box.w, v.w / zoom) / 2, y: box.y + Math.min(box.h, v.h / zoom) / 2, zoom };
}

/** CSS transform that shows pixels drawn for camera `drawn` as camera `now` would; the canvas has a margin around the view. */
export function moveOf(drawn: Camera, now: Camera, v: View, margin: number): { readonly k: number; readonly x: number; readonly y: number } {
  const k = now.zoom / drawn.zoom;
  return { k, x: (drawn.x - now.x) * now.zoom + (v.w / 2 + margin) * (1 - k), y: (drawn.y - now.y) * now.zoom + (v.h / 2 + margin) * (1 - k) };
}
