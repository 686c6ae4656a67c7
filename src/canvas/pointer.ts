import { openPanel } from '../state/panels.ts';
import { Pan } from './boxSelect.ts';
import { zoomedAt } from './camera.ts';
import { DragEdge } from './dragEdge.ts';
import type { Engine } from './engine.ts';
import type { Gesture, Press } from './gesture.ts';
import { gestureAt, hitAt, hover } from './meaning.ts';
import { Placer } from './placing.ts';

/** Travel after which a press is a drag, px. */
const DRAG_PX = { mouse: 4, touch: 9 } as const;
/** A finger that rests so long opens the menu, ms. */
const HOLD_MS = 550;
/** Zoom of one notch of the wheel with Ctrl, and pixels of a line of it. */
const WHEEL = { zoom: 0.0022, line: 16 } as const;

/**
 * Turns pointers on the surface into gestures: press on the surface, move and let go anywhere. A second finger turns
 * the gesture into pinching. @returns the function that takes the listeners off
 */
export function listenToPointers(engine: Engine, root: HTMLElement, isSpaceDown: () => boolean): () => void {
  const down = new Map<number, { clientX: number; clientY: number }>();
  const placer = new Placer(engine);
  let gesture: Gesture | null = null;
  let start: Press | null = null;
  let moving = false;
  let touch = false;
  /** Two fingers have been down together: when they are lifted, none of them puts anything down. */
  let pinched = false;
  let pinch: { readonly distance: number; readonly x: number; readonly y: number } | null = null;

  const pressOf = (e: PointerEvent | MouseEvent): Press => {
    const w = engine.worldOfClient(e.clientX, e.clientY);
    return { x: w.x, y: w.y, clientX: e.clientX, clientY: e.clientY, shift: e.shiftKey };
  };
  const over = (e: PointerEvent): boolean => {
    const r = root.getBoundingClientRect();
    const under = e.clientX >= r.left && e.clientX <= r.right && e.clientY >= r.top && e.clientY <= r.bottom;
    return under && root.contains(document.elementFromPoint(e.clientX, e.clientY));
  };

  let resting: ReturnType<typeof setTimeout> | undefined;
  /** Chooses what lies under a place, unless it is chosen already, and opens its menu there. */
  const menuOf = (at: Press, byTouch: boolean): void => {
    const { selection, select, placing, wiringFrom } = engine.app.getState();
    if (placing || wiringFrom) return;
    const hit = hitAt(engine, at, byTouch);
    const part = hit?.kind === 'pad' ? hit.pad.part : hit?.kind === 'part' ? hit.id : null;
    const wire = hit?.kind === 'wire' ? hit.id : null;
    if (part !== null && !selection.parts.includes(part)) select({ parts: [part], wires: [] });
    if (wire !== null && !selection.wires.includes(wire)) select({ parts: [], wires: [wire] });
    openPanel({ kind: 'menu', x: at.clientX, y: at.clientY, of: part !== null ? 'parts' : wire !== null ? 'wires' : 'ground' });
  };
  const onMenu = (e: MouseEvent): void => {
    e.preventDefault();
    // A long press may come as this event too: the resting finger answers it.
    if (!touch) menuOf(pressOf(e), false);
  };

  const onDown = (e: PointerEvent): void => {
    clearTimeout(resting);
    if (e.pointerType === 'mouse' && e.button > 1) {
      touch = false;
      return;
    }
    down.set(e.pointerId, e);
    touch = e.pointerType === 'touch';
    if (down.size === 1) pinched = false;
    // Fields and buttons elsewhere give up the focus, as with a press on any part of a page that takes none.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    e.preventDefault();
    // The end of the last press may never have been heard, under a dialog of the browser say: nothing stays in the hand.
    gesture?.cancel();
    gesture = null;
    if (down.size === 2) {
      pinched = true;
      pinch = pinchOf([...down.values()]);
      return;
    }
    if (down.size > 2 || engine.app.getState().placing) return;
    start = pressOf(e);
    moving = false;
    if (touch) {
      const at = start;
      resting = setTimeout(() => {
        if (moving || !gesture || gesture instanceof DragEdge) return;
        gesture.cancel();
        gesture = null;
        menuOf(at, true);
      }, HOLD_MS);
    }
    gesture = e.button === 1 || isSpaceDown() ? new Pan(engine, start) : gestureAt(engine, start, touch);
  };

  const onMove = (e: PointerEvent): void => {
    if (down.has(e.pointerId)) down.set(e.pointerId, e);
    if (pinch && down.size === 2) {
      const next = pinchOf([...down.values()]);
      const r = root.getBoundingClientRect();
      const shifted = {
        ...engine.camera,
        x: engine.camera.x - (next.x - pinch.x) / engine.camera.zoom,
        y: engine.camera.y - (next.y - pinch.y) / engine.camera.zoom,
      };
      engine.moveCamera(zoomedAt(shifted, engine.size, next.x - r.left, next.y - r.top, next.distance / pinch.distance));
      pinch = next;
      return;
    }
    if (engine.app.getState().placing) {
      if (over(e)) {
        const w = engine.worldOfClient(e.clientX, e.clientY);
        placer.hover(w.x, w.y);
      } else placer.away();
      return;
    }
    if (gesture && start) {
      const travel = Math.hypot(e.clientX - start.clientX, e.clientY - start.clientY);
      if (!moving && travel < (touch ? DRAG_PX.touch : DRAG_PX.mouse)) return;
      moving = true;
      clearTimeout(resting);
      gesture.move(pressOf(e));
    } else if (e.pointerType === 'mouse' && e.target instanceof Node && root.contains(e.target)) hover(engine, root, pressOf(e));
  };

  const onUp = (e: PointerEvent): void => {
    clearTimeout(resting);
    down.delete(e.pointerId);
    pinch = down.size === 2 ? pinchOf([...down.values()]) : null;
    if (engine.app.getState().placing) {
      if (e.button === 0 && !pinched && over(e)) {
        const w = engine.worldOfClient(e.clientX, e.clientY);
        placer.put(w.x, w.y);
      }
      return;
    }
    const g = gesture;
    gesture = null;
    if (!g) return;
    if (moving) g.drop(pressOf(e));
    else g.click?.(pressOf(e));
  };

  const onCancel = (e: PointerEvent): void => {
    clearTimeout(resting);
    down.delete(e.pointerId);
    pinch = down.size === 2 ? pinchOf([...down.values()]) : null;
    gesture?.cancel();
    gesture = null;
  };

  /** Nothing is under the pointer any more. */
  const onLeave = (): void => {
    if (gesture || !engine.live.edge) return;
    engine.live.edge = null;
    engine.redrawLive();
  };

  const onWheel = (e: WheelEvent): void => {
    e.preventDefault();
    const unit = e.deltaMode === 1 ? WHEEL.line : e.deltaMode === 2 ? engine.size.h : 1;
    const r = root.getBoundingClientRect();
    if (e.ctrlKey || e.metaKey) {
      const factor = Math.exp(-Math.max(-240, Math.min(240, e.deltaY * unit)) * WHEEL.zoom);
      engine.moveCamera(zoomedAt(engine.camera, engine.size, e.clientX - r.left, e.clientY - r.top, factor));
      return;
    }
    const [dx, dy] = e.shiftKey && e.deltaX === 0 ? [e.deltaY * unit, 0] : [e.deltaX * unit, e.deltaY * unit];
    engine.moveCamera({ ...engine.camera, x: engine.camera.x + dx / engine.camera.zoom, y: engine.camera.y + dy / engine.camera.zoom });
  };

  const onKey = (e: KeyboardEvent): void => {
    if (e.key !== 'Escape' || !gesture) return;
    gesture.cancel();
    gesture = null;
    e.preventDefault();
  };

  const stopPlacing = engine.app.subscribe((now, before) => {
    if (before.placing && !now.placing) placer.away();
  });
  root.addEventListener('pointerdown', onDown);
  root.addEventListener('pointerleave', onLeave);
  root.addEventListener('contextmenu', onMenu);
  root.addEventListener('wheel', onWheel, { passive: false });
  window.addEventListener('pointermove', onMove);
  window.addEventListener('pointerup', onUp);
  window.addEventListener('pointercancel', onCancel);
  window.addEventListener('keydown', onKey, true);
  return () => {
    stopPlacing();
    root.removeEventListener('pointerdown', onDown);
    clearTimeout(resting);
    root.removeEventListener('pointerleave', onLeave);
    root.removeEventListener('contextmenu', onMenu);
    root.removeEventListener('wheel', onWheel);
    window.removeEventListener('pointermove', onMove);
    window.removeEventListener('pointerup', onUp);
    window.removeEventListener('pointercancel', onCancel);
    window.removeEventListener('keydown', onKey, true);
  };
}

function pinchOf(points: readonly { clientX: number; clientY: number }[]): { distance: number; x: number; y: number } {
  const [a, b] = [points[0], points[1]];
  if (!a || !b) return { distance: 1, x: 0, y: 0 };
  return { distance: Math.max(1, Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY)), x: (a.clientX + b.clientX) / 2, y: (a.clientY + b.clientY) / 2 };
}
