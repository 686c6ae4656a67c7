import type { Box, Point } from '../drawing/types.ts';
import type { Plan } from '../plan/types.ts';
import type { Engine } from './engine.ts';
import { nearestOn } from './sceneIndex.ts';

/** What is drawn and where it is on screen, for tests that drive the page as a person does. Client pixels. */
export interface SurfaceHook {
  worldToScreen(x: number, y: number): Point;
  screenToWorld(x: number, y: number): Point;
  padAt(part: string, terminal: string): Point | null;
  partBox(id: string): Box | null;
  zoneBox(id: string): Box | null;
  wireMid(id: string): Point | null;
  /** The plan as it stands, without a drag in hand. */
  plan(): Plan | null;
}

declare global {
  interface Window {
    __surface?: SurfaceHook;
  }
}

export function exposeHook(engine: Engine, root: HTMLElement): () => void {
  const client = (x: number, y: number): Point => {
    const r = root.getBoundingClientRect();
    const p = engine.screen(x, y);
    return { x: p.x + r.left, y: p.y + r.top };
  };
  const clientBox = (box: Box): Box => {
    const a = client(box.x, box.y);
    return { x: a.x, y: a.y, w: box.w * engine.camera.zoom, h: box.h * engine.camera.zoom };
  };
  window.__surface = {
    worldToScreen: client,
    screenToWorld: (x, y) => engine.worldOfClient(x, y),
    padAt: (part, terminal) => {
      const pad = engine.scene?.parts.get(part)?.pads[terminal];
      return pad ? client(pad.x, pad.y) : null;
    },
    partBox: (id) => {
      const part = engine.scene?.parts.get(id);
      return part ? clientBox(part.box) : null;
    },
    zoneBox: (id) => {
      const zone = engine.scene?.zones.find((z) => z.id === id);
      return zone ? clientBox(zone.box) : null;
    },
    wireMid: (id) => {
      const wire = engine.scene?.wires.get(id);
      if (!wire) return null;
      // A point on the wire itself, also where the tag sits beside it.
      const at = nearestOn(wire.points, wire.tagAt.x, wire.tagAt.y);
      return client(at.x, at.y);
    },
    plan: () => engine.app.getState().plan,
  };
  return () => {
    delete window.__surface;
  };
}
