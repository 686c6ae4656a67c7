import type { Box } from '../drawing/types.ts';
import type { Subject } from '../rules/types.ts';
import { askFor } from '../state/panels.ts';
import { app } from '../state/store.ts';
import type { AppState, Selection } from '../state/types.ts';

type Camera = AppState['camera'];
interface Size {
  readonly w: number;
  readonly h: number;
}

/** What was added is drawn a moment later; it is waited for no longer than this, ms. */
const PATIENCE_MS = 4000;
/** Kept free round what is looked at, pixels; less in a narrow strip. */
const PAD_PX = 70;
/** Zoom from which names can be read; and the least at which a part is still more than a dot. */
const LEGIBLE = 0.7;
const LEAST = 0.4;
/** A strip of the drawing narrower than this shows nothing, pixels. */
const STRIP_PX = 40;

/**
 * Selects parts and wires and moves the drawing so that all of them can be seen; not when they can be already.
 * @param room where they are to be seen: beside what has slid over the drawing, or on all of it, which is about to be free
 */
export function lookAt(wanted: Selection, room: 'free' | 'all' = 'free'): void {
  app.getState().select(wanted);
  if (moveTo(wanted, room)) return;
  const stop = app.subscribe((now, before) => {
    if (now.scene !== before.scene && moveTo(wanted, room)) end();
  });
  const timer = setTimeout(() => end(), PATIENCE_MS);
  const end = (): void => {
    clearTimeout(timer);
    stop();
  };
}

/** Shows a subject on the drawing; what has slid over it on a small screen goes. */
export function show(subject: Subject): void {
  askFor('drawing');
  if (subject.kind === 'plan') return;
  lookAt(subject.kind === 'part' ? { parts: [subject.id], wires: [] } : { parts: [], wires: [subject.id] }, 'all');
}

/** False while something of it has not been drawn yet. */
function moveTo({ parts, wires }: Selection, where: 'free' | 'all'): boolean {
  const { scene, camera, setCamera } = app.getState();
  const room = document.querySelector('.bench-plan')?.getBoundingClientRect();
  if (!scene || !room) return false;
  const boxes: Box[] = [];
  for (const id of parts) {
    const box = scene.parts.get(id)?.box;
    if (!box) return false;
    boxes.push(box);
  }
  for (const id of wires) {
    const at = scene.wires.get(id)?.tagAt;
    if (at) boxes.push({ x: at.x, y: at.y, w: 0, h: 0 });
  }
  if (boxes.length === 0) return true;
  const left = Math.min(...boxes.map((b) => b.x));
  const top = Math.min(...boxes.map((b) => b.y));
  const box: Box = { x: left, y: top, w: Math.max(...boxes.map((b) => b.x + b.w)) - left, h: Math.max(...boxes.map((b) => b.y + b.h)) - top };
  const size = { w: room.width, h: room.height };
  const over = where === 'all' ? undefined : document.querySelector('.drawer.bottom')?.getBoundingClientRect();
  setCamera(seeing(box, camera, size, free(size, over && { x: over.left - room.left, y: over.top - room.top })));
  return true;
}

/** What of the surface is not covered by a sheet that has slid over it from below or from the right, whose corner stands there. */
export function free(room: Size, over?: { readonly x: number; readonly y: number }): Size {
  if (over && over.x > STRIP_PX) return { w: over.x, h: room.h };
  if (over && over.y > STRIP_PX) return { w: room.w, h: over.y };
  return room;
}

/**
 * The camera that has a box in the free part of the surface, which begins at its top left; the same one when it is there already.
 * @param room size of the surface, pixels
 */
export function seeing(box: Box, camera: Camera, room: Size, clear: Size): Camera {
  const x = (box.x - camera.x) * camera.zoom + room.w / 2;
  const y = (box.y - camera.y) * camera.zoom + room.h / 2;
  if (x >= 0 && y >= 0 && x + box.w * camera.zoom <= clear.w && y + box.h * camera.zoom <= clear.h) return camera;
  const pad = Math.min(PAD_PX, clear.w / 8, clear.h / 8);
  const fit = Math.min((clear.w - 2 * pad) / Math.max(1, box.w), (clear.h - 2 * pad) / Math.max(1, box.h));
  const zoom = Math.max(LEAST, Math.min(Math.max(LEGIBLE, camera.zoom), fit));
  return { x: box.x + box.w / 2 + (room.w - clear.w) / 2 / zoom, y: box.y + box.h / 2 + (room.h - clear.h) / 2 / zoom, zoom };
}
