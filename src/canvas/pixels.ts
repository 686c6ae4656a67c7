import type Konva from 'konva';
import type { Box, Point } from '../drawing/types.ts';
import { type Camera, moveOf, resized, toScreen, toWorld, type View, visibleBox } from './camera.ts';

/** Pause after which pixels that were only moved are drawn sharply, ms. */
const SETTLE_MS = 120;
/** A surface no wider than this is not laid out yet, px. */
export const LEAST_PX = 20;

/**
 * The size of the surface under which a camera was last looked through. The surface comes back with another one: what
 * stands beside it (the strip, the job line) is laid out a moment later.
 */
const seenUnder = new WeakMap<Camera, View>();

export interface Mounts {
  /** The surface; its size is the view. */
  readonly root: HTMLElement;
  /** Holds the canvases, larger than the root by the margin on every side. */
  readonly mover: HTMLElement;
  readonly standing: Konva.Layer;
  readonly live: Konva.Layer;
}

/**
 * Camera and canvases. Panning and zooming only move the pixels by a CSS transform; a sharp drawing follows when the
 * motion pauses, or at once when what is drawn no longer covers the view.
 */
export class Pixels {
  camera: Camera;
  view: View = { w: 1, h: 1 };
  margin = 320;
  /** The camera of what is on the canvases. */
  drawn: Camera;
  mounts: Mounts | null = null;
  private timer: ReturnType<typeof setTimeout> | null = null;
  private frame = 0;
  private wants = { standing: false, live: false };

  /**
   * @param bounds box of the plan; beyond it nothing can be missing
   * @param settled told the camera whenever a motion has ended
   */
  constructor(
    camera: Camera,
    private readonly bounds: () => Box | null,
    private readonly settled: (camera: Camera) => void,
  ) {
    this.camera = camera;
    this.drawn = camera;
  }

  unmount(): void {
    this.mounts = null;
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    if (this.timer) {
      clearTimeout(this.timer);
      this.timer = null;
      this.settled(this.camera);
    }
    if (this.view.w > LEAST_PX) seenUnder.set(this.camera, this.view);
  }

  world(px: number, py: number): Point {
    return toWorld(this.camera, this.view, px, py);
  }
  screen(x: number, y: number): Point {
    return toScreen(this.camera, this.view, x, y);
  }

  /** The surface has a size, or another one: the drawing under it stands still. */
  resize(view: View, margin: number): void {
    const { camera } = this;
    const was = this.view.w > LEAST_PX ? this.view : seenUnder.get(camera);
    this.view = view;
    this.margin = margin;
    if (!was || (was.w === view.w && was.h === view.h)) return;
    this.camera = resized(camera, was, view);
    this.settled(this.camera);
  }

  /** Does the view move, so that the sharp drawing still has to follow? */
  get isMoving(): boolean {
    return this.timer !== null;
  }

  /** Moves the view; pixels follow at once, the sharp drawing later. */
  move(camera: Camera): void {
    this.camera = camera;
    if (this.covered()) {
      this.shift();
      if (this.timer) clearTimeout(this.timer);
      this.timer = setTimeout(() => this.settle(), SETTLE_MS);
    } else this.settle();
  }

  settle(): void {
    if (this.timer) clearTimeout(this.timer);
    this.timer = null;
    this.settled(this.camera);
    this.redraw();
  }

  /** Draws everything sharply in the next frame. */
  redraw(): void {
    this.wants = { standing: true, live: true };
    this.schedule();
  }
  redrawLive(): void {
    this.wants.live = true;
    this.schedule();
  }

  /** Runs a painter with the context scaled to world units. */
  inWorld(c: CanvasRenderingContext2D, paint: (zoom: number) => void): void {
    const { zoom, x, y } = this.drawn;
    c.save();
    c.translate(this.view.w / 2 + this.margin - x * zoom, this.view.h / 2 + this.margin - y * zoom);
    c.scale(zoom, zoom);
    paint(zoom);
    c.restore();
  }

  /** World box that the canvases hold. */
  drawnBox(): Box {
    return visibleBox(this.drawn, this.view, this.margin);
  }

  private schedule(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.flush());
  }

  private flush(): void {
    this.frame = 0;
    if (!this.mounts) return;
    const { standing, live } = this.wants;
    this.wants = { standing: false, live: false };
    if (standing) {
      this.drawn = this.camera;
      this.shift();
      this.mounts.standing.draw();
    }
    if (live) this.mounts.live.draw();
  }

  /** Does what is drawn (view and margin) still cover all of the plan that is in view? */
  private covered(): boolean {
    const bounds = this.bounds();
    if (!bounds) return true;
    const need = clip(visibleBox(this.camera, this.view), bounds);
    const have = this.drawnBox();
    return need === null || (need.x >= have.x && need.y >= have.y && need.x + need.w <= have.x + have.w && need.y + need.h <= have.y + have.h);
  }

  private shift(): void {
    if (!this.mounts) return;
    const { k, x, y } = moveOf(this.drawn, this.camera, this.view, this.margin);
    this.mounts.mover.style.transform = k === 1 && x === 0 && y === 0 ? 'none' : `translate(${x}px, ${y}px) scale(${k})`;
  }
}

/** Common part of two boxes; null when there is none. */
function clip(a: Box, b: Box): Box | null {
  const x = Math.max(a.x, b.x);
  const y = Math.max(a.y, b.y);
  const w = Math.min(a.x + a.w, b.x + b.w) - x;
  const h = Math.min(a.y + a.h, b.y + b.h) - y;
  return w > 0 && h > 0 ? { x, y, w, h } : null;
}
