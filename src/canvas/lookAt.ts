import type { Box } from '../drawing/types.ts';
import type { Scene } from '../scene/types.ts';
import type { Selection } from '../state/types.ts';

/** Room around what is looked at, u. */
const AROUND = 60;

/** The box of some parts and wires on the drawing; null when none of them is drawn. */
export function boundsOf(scene: Scene, { parts, wires }: Selection): Box | null {
  const xs: number[] = [];
  const ys: number[] = [];
  for (const id of parts) {
    const box = scene.parts.get(id)?.box;
    if (box) {
      xs.push(box.x, box.x + box.w);
      ys.push(box.y, box.y + box.h);
    }
  }
  for (const id of wires) for (const [i, v] of (scene.wires.get(id)?.points ?? []).entries()) (i % 2 === 0 ? xs : ys).push(v);
  if (xs.length === 0) return null;
  const [x, y] = [Math.min(...xs) - AROUND, Math.min(...ys) - AROUND];
  return { x, y, w: Math.max(...xs) + AROUND - x, h: Math.max(...ys) + AROUND - y };
}
