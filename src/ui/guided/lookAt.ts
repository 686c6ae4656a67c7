import { fitted } from '../../canvas/camera.ts';
import type { Box } from '../../drawing/types.ts';
import { app } from '../../state/store.ts';
import type { Selection } from '../../state/types.ts';

/** What was added is drawn a moment later; it is waited for no longer than this, ms. */
const PATIENCE_MS = 4000;
/** Kept free round what is looked at, pixels. */
const PAD_PX = 70;

/** Selects parts and wires and moves the drawing so that all of them can be seen; not when they can be already. */
export function lookAt(wanted: Selection): void {
  app.getState().select(wanted);
  if (moveTo(wanted)) return;
  const stop = app.subscribe((now, before) => {
    if (now.scene !== before.scene && moveTo(wanted)) end();
  });
  const timer = setTimeout(() => end(), PATIENCE_MS);
  const end = (): void => {
    clearTimeout(timer);
    stop();
  };
}

/** False while something of it has not been drawn yet. */
function moveTo({ parts, wires }: Selection): boolean {
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
  const halfW = room.width / 2 / camera.zoom;
  const halfH = room.height / 2 / camera.zoom;
  const seen = box.x >= camera.x - halfW && box.x + box.w <= camera.x + halfW && box.y >= camera.y - halfH && box.y + box.h <= camera.y + halfH;
  if (!seen) {
    const fit = fitted(box, { w: room.width, h: room.height }, PAD_PX);
    setCamera({ x: box.x + box.w / 2, y: box.y + box.h / 2, zoom: Math.min(camera.zoom, fit.zoom) });
  }
  return true;
}
