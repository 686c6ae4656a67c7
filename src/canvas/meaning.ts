import type { PlacedZone } from '../scene/types.ts';
import { BendWire } from './bendWire.ts';
import { BoxSelect } from './boxSelect.ts';
import { joinEnds, joinToWire } from './commands.ts';
import { DragEdge } from './dragEdge.ts';
import { DragParts } from './dragParts.ts';
import { DrawWire } from './drawWire.ts';
import type { Engine } from './engine.ts';
import type { Gesture, Press } from './gesture.ts';
import type { Hit } from './sceneIndex.ts';
import { Swipe } from './swipe.ts';
import { edgeCursor, edgeUnder, headAt, onEdge } from './zoneEdge.ts';

/** How far from a terminal a press still means it, px. */
const REACH_PX = { mouse: 9, touch: 18 } as const;

/** What lies under a press. */
export function hitAt(engine: Engine, at: Press, touch: boolean): Hit | null {
  return engine.index?.hit(at.x, at.y, engine.reach(touch ? REACH_PX.touch : REACH_PX.mouse)) ?? null;
}

/** Lights the terminal or the edge of a zone under the pointer and says by the cursor what a press would do. */
export function hover(engine: Engine, root: HTMLElement, at: Press): void {
  const hit = hitAt(engine, at, false);
  const pad = hit?.kind === 'pad' ? hit.pad : null;
  const zone = edgeMeant(engine, at, hit, false);
  root.style.cursor = zone ? edgeCursor(zone) : pad ? 'crosshair' : hit?.kind === 'part' ? 'grab' : hit?.kind === 'wire' ? 'pointer' : 'default';
  const was = engine.live.hover;
  if (was?.part === pad?.part && was?.terminal === pad?.terminal && engine.live.edge?.zone === zone?.id) return;
  engine.live.hover = pad;
  engine.live.edge = zone ? { zone: zone.id, x: zone.box.x + zone.box.w } : null;
  engine.redrawLive();
}

/** The zone whose right edge a press means. A finger needs the grip of a chosen zone, since it moves the view everywhere else. */
function edgeMeant(engine: Engine, at: Press, hit: Hit | null, touch: boolean): PlacedZone | null {
  const zones = engine.scene?.zones ?? [];
  if (engine.app.getState().wiringFrom) return null;
  if (touch) {
    const zone = zones.find((z) => z.id === engine.zone);
    return zone && onEdge(zone, at.clientX - engine.clientOf(0, 0).x, engine.camera, engine.size) ? zone : null;
  }
  if (hit && (hit.kind !== 'wire' || !crossesOver(engine, hit))) return null;
  const id = edgeUnder(zones, at.x, engine.camera);
  return zones.find((z) => z.id === id) ?? null;
}

/** Does this piece of a wire lead across an edge, rather than along it? */
function crossesOver(engine: Engine, { id, piece }: { readonly id: string; readonly piece: number }): boolean {
  const points = engine.scene?.wires.get(id)?.points ?? [];
  return points[piece * 2 + 1] === points[piece * 2 + 3];
}

/** What a press means, by what lies under it. */
export function gestureAt(engine: Engine, at: Press, touch: boolean): Gesture {
  const hit = hitAt(engine, at, touch);
  const zone = edgeMeant(engine, at, hit, touch);
  engine.live.hover = null;
  return zone ? new DragEdge(engine, zone.id, at, (press) => gestureOn(engine, at, hit, touch).click?.(press)) : gestureOn(engine, at, hit, touch);
}

/** What a press does that means no edge of a zone. */
function gestureOn(engine: Engine, at: Press, hit: Hit | null, touch: boolean): Gesture {
  const { app } = engine;
  const { selection, select, wiringFrom, setWiringFrom, plan } = app.getState();
  if (hit) engine.chooseZone(null);
  const pick = (kind: 'parts' | 'wires', id: string): void => {
    const has = selection[kind].includes(id);
    if (at.shift) select({ ...selection, [kind]: has ? selection[kind].filter((x) => x !== id) : [...selection[kind], id] });
    else select(kind === 'parts' ? { parts: [id], wires: [] } : { parts: [], wires: [id] });
  };
  if (hit?.kind === 'pad') {
    return new DrawWire(engine, hit.pad, () => {
      if (!wiringFrom) setWiringFrom(hit.pad);
      else {
        setWiringFrom(null);
        if (wiringFrom.part !== hit.pad.part || wiringFrom.terminal !== hit.pad.terminal) joinEnds(app, wiringFrom, hit.pad);
      }
    });
  }
  if (hit?.kind === 'part') {
    const chosen = selection.parts.includes(hit.id);
    if (!chosen && !at.shift) select({ parts: [hit.id], wires: [] });
    const ids = chosen ? selection.parts : [hit.id];
    return new DragParts(engine, ids, at, () => {
      if (at.shift || chosen) pick('parts', hit.id);
      if (wiringFrom) setWiringFrom(null);
    });
  }
  if (hit?.kind === 'wire') {
    const own = plan?.wires[hit.id]?.owner === 'build';
    const click = (): void => {
      if (wiringFrom && engine.scene) {
        setWiringFrom(null);
        joinToWire(app, engine.scene, wiringFrom, hit.id, at.x, at.y);
      } else pick('wires', hit.id);
    };
    return own && !touch ? new BendWire(engine, hit.id, hit.piece, at, click) : new Swipe(engine, at, click);
  }
  const clear = (press: Press): void => {
    if (wiringFrom) setWiringFrom(null);
    else if (!press.shift) select({ parts: [], wires: [] });
    engine.chooseZone(headAt(engine.scene?.zones ?? [], press.x, press.y));
  };
  if (touch) return new Swipe(engine, at, clear);
  const box = new BoxSelect(engine, at);
  return { move: (p) => box.move(p), drop: () => box.drop(), cancel: () => box.cancel(), click: clear };
}
