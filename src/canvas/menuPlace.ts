import type { Panel } from '../state/panels.ts';
import type { Engine } from './engine.ts';
import { boundsOf } from './lookAt.ts';

/** The menu of what is chosen, beside it; without anything chosen that of the ground, in the middle of the drawing. */
export function menuAt(engine: Engine): Panel {
  const { selection } = engine.app.getState();
  const box = engine.scene ? boundsOf(engine.scene, selection) : null;
  const at = box ? engine.screen(box.x + box.w / 2, box.y + box.h / 2) : { x: engine.size.w / 2, y: engine.size.h / 3 };
  const { x, y } = engine.clientOf(Math.max(0, Math.min(engine.size.w, at.x)), Math.max(0, Math.min(engine.size.h, at.y)));
  return { kind: 'menu', x, y, of: selection.parts.length > 0 ? 'parts' : selection.wires.length > 0 ? 'wires' : 'ground' };
}
