import type Konva from 'konva';
import type { Box, Point } from '../drawing/types.ts';
import { buildScene } from '../scene/buildScene.ts';
import type { PictureOptions } from '../scene/picture.ts';
import type { Scene } from '../scene/types.ts';
import type { App } from '../state/store.ts';
import type { AppState } from '../state/types.ts';
import { type Camera, firstLook, fitted, moveOf, toScreen, toWorld, type View, visibleBox } from './camera.ts';
import { EffectivePlan } from './effective.ts';
import { type FigureLabel, figureLabelOf, figureLabels } from './figureLabels.ts';
import { type WireFigures, wireFigures } from './figures.ts';
import { type InkTable, inkTable } from './inks.ts';
import { type Live, nothingLive } from './live.ts';
import { type Mark, marksOf } from './marks.ts';
import { Painter } from './painter.ts';
import { paintLive } from './paintLive.ts';
import { paintScene } from './paintScene.ts';
import { SceneIndex } from './sceneIndex.ts';
import { ShownScenes } from './shownScenes.ts';
import { litTargets } from './targets.ts';

/** Pause after which pixels that were only moved are drawn sharply, ms. */
const SETTLE_MS = 120;

export interface Mounts {
  /** The surface; its size is the view. */
  readonly root: HTMLElement;
  /** Holds the canvases, larger than the root by the margin on every side. */
  readonly mover: HTMLElement;
  readonly standing: Konva.Layer;
  readonly live: Konva.Layer;
}

/**
 * The drawing behind the surface: keeps scene, index, camera and what is in the hand, and decides when to draw. Panning
 * and zooming only move the pixels by a CSS transform; a sharp drawing follows when the motion pauses or when what is
 * drawn no longer covers the view.
 */
export class Engine {
  scene: Scene | null = null;
  index: SceneIndex | null = null;
  live: Live = nothingLive();
  camera: Camera;
  inks: InkTable;
  /** A gesture holds the drawing still: new plans and results wait until it ends. */
  held = false;
  private drawn: Camera;
  private view: View = { w: 1, h: 1 };
  private margin = 320;
  private mounts: Mounts | null = null;
  private readonly effective = new EffectivePlan();
  private readonly shown = new ShownScenes();
  private marks: readonly Mark[] = [];
  private figures: readonly FigureLabel[] = [];
  private byWire: ReadonlyMap<string, WireFigures> = new Map();
  private options: PictureOptions = {};
  private timer: ReturnType<typeof setTimeout> | null = null;
  private frame = 0;
  private wants = { standing: false, live: false };
  private lookedAt: string | null = null;
  private stale = false;

  constructor(readonly app: App) {
    this.camera = app.getState().camera;
    this.drawn = this.camera;
    this.inks = inkTable(() => '');
  }

  /** Ties the engine to its elements. @returns the function that unties it */
  mount(mounts: Mounts): () => void {
    this.mounts = mounts;
    this.readInks();
    this.refreshScene();
    const stop = this.app.subscribe((now, before) => this.onState(now, before));
    return () => {
      stop();
      this.mounts = null;
      cancelAnimationFrame(this.frame);
      this.frame = 0;
      if (this.timer) clearTimeout(this.timer);
    };
  }

  resize(view: View, margin: number): void {
    this.view = view;
    this.margin = margin;
    if (this.scene) this.lookFirst(this.scene);
    this.redraw();
  }

  // --- places

  world(px: number, py: number): Point {
    return toWorld(this.camera, this.view, px, py);
  }
  /** World point under a client position (of a pointer event). */
  worldOfClient(clientX: number, clientY: number): Point {
    const r = this.mounts?.root.getBoundingClientRect();
    return this.world(clientX - (r?.left ?? 0), clientY - (r?.top ?? 0));
  }
  screen(x: number, y: number): Point {
    return toScreen(this.camera, this.view, x, y);
  }
  /** So many screen pixels in world units. */
  reach(px: number): number {
    return px / this.camera.zoom;
  }
  get size(): View {
    return this.view;
  }

  // --- camera

  /** Moves the view; pixels follow at once, the sharp drawing later. */
  moveCamera(camera: Camera): void {
    this.camera = camera;
    if (this.covered()) {
      this.shift();
      if (this.timer) clearTimeout(this.timer);
      this.timer = setTimeout(() => this.settle(), SETTLE_MS);
    } else this.settle();
  }

  fit(): void {
    if (!this.scene) return;
    this.camera = fitted(this.scene.bounds, this.view);
    this.settle();
  }

  private settle(): void {
    if (this.timer) clearTimeout(this.timer);
    this.timer = null;
    this.app.getState().setCamera(this.camera);
    this.redraw();
  }

  /** Does what is drawn (view and margin) still cover all of the plan that is in view? */
  private covered(): boolean {
    if (!this.scene) return true;
    const need = clip(visibleBox(this.camera, this.view), this.scene.bounds);
    const have = visibleBox(this.drawn, this.view, this.margin);
    return need === null || (need.x >= have.x && need.y >= have.y && need.x + need.w <= have.x + have.w && need.y + need.h <= have.y + have.h);
  }

  private shift(): void {
    if (!this.mounts) return;
    const { k, x, y } = moveOf(this.drawn, this.camera, this.view, this.margin);
    this.mounts.mover.style.transform = k === 1 && x === 0 && y === 0 ? 'none' : `translate(${x}px, ${y}px) scale(${k})`;
  }

  // --- drawing

  /** Draws everything sharply in the next frame. */
  redraw(): void {
    this.wants = { standing: true, live: true };
    this.schedule();
  }
  redrawLive(): void {
    this.wants.live = true;
    this.schedule();
  }

  /** Draws what is wanted, now. */
  flush(): void {
    cancelAnimationFrame(this.frame);
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

  private schedule(): void {
    if (this.frame === 0) this.frame = requestAnimationFrame(() => this.flush());
  }

  paintStanding(c: CanvasRenderingContext2D): void {
    if (!this.scene || !this.index) return;
    const box = visibleBox(this.drawn, this.view, this.margin);
    const report = this.app.getState().results?.report;
    this.inWorld(c, (painter) =>
      paintScene(
        painter,
        {
          scene: this.scene as Scene,
          index: this.index as SceneIndex,
          hidden: this.live.hidden,
          figures: this.app.getState().showFigures ? this.figures : [],
          marks: this.marks,
          todo: report?.todo ?? {},
          options: this.options,
        },
        box,
        this.drawn.zoom,
      ),
    );
  }

  paintLive(c: CanvasRenderingContext2D): void {
    const scene = this.scene;
    if (!scene) return;
    const { selection, pointed, wiringFrom } = this.app.getState();
    const shown = new Set(this.app.getState().showFigures ? this.figures.map((f) => f.wire) : []);
    const figures = selection.wires.flatMap((id) => {
      const wire = scene.wires.get(id);
      const f = this.byWire.get(id);
      const label = wire && f && !shown.has(id) && !this.live.hidden.has(id) ? figureLabelOf(wire, f) : null;
      return label ? [label] : [];
    });
    this.inWorld(c, (painter) => paintLive(painter, { scene, live: this.live, selection, pointed, wiringFrom, figures, inks: this.inks }, this.drawn.zoom));
  }

  private inWorld(c: CanvasRenderingContext2D, paint: (painter: Painter) => void): void {
    const { zoom, x, y } = this.drawn;
    c.save();
    c.translate(this.view.w / 2 + this.margin - x * zoom, this.view.h / 2 + this.margin - y * zoom);
    c.scale(zoom, zoom);
    paint(new Painter(c, this.inks, zoom));
    c.restore();
  }

  // --- following the store

  private onState(now: AppState, before: AppState): void {
    const planned = now.plan !== before.plan || now.provisional !== before.provisional || now.results !== before.results;
    if (planned) {
      if (this.held) this.stale = true;
      else this.refreshScene();
    } else if (now.keyPosition !== before.keyPosition || now.band !== before.band || now.showFigures !== before.showFigures) {
      this.refreshFigures();
      this.redraw();
    }
    if (now.theme !== before.theme)
      // The theme's attribute is set by the page in the same turn; the colours are there in the next frame.
      requestAnimationFrame(() => {
        this.readInks();
        this.redraw();
      });
    if (now.units !== before.units) {
      this.readOptions();
      this.redraw();
    }
    if (now.camera !== before.camera && now.camera !== this.camera) {
      this.camera = now.camera;
      this.redraw();
    }
    if (now.wiringFrom !== before.wiringFrom)
      this.live.targets = now.wiringFrom && now.plan && this.scene ? litTargets(now.plan, this.scene, now.wiringFrom) : [];
    if (now.selection !== before.selection || now.pointed !== before.pointed || now.wiringFrom !== before.wiringFrom) this.redrawLive();
  }

  /** Ends a gesture's hold on the drawing and catches up with what has changed meanwhile. */
  release(): void {
    this.held = false;
    if (this.stale) this.refreshScene();
    else this.redraw();
  }

  refreshScene(): void {
    this.stale = false;
    const { plan, provisional, results, setScene } = this.app.getState();
    const shown = provisional ?? plan;
    if (!shown) {
      this.scene = null;
      this.index = null;
      this.redraw();
      return;
    }
    const before = this.scene;
    // After undo and redo the picture is the one that was there, not one more way to lay the same plan.
    this.scene = buildScene(this.effective.of(shown, results), this.shown.sceneOf(shown) ?? before ?? undefined);
    this.shown.keep(shown, this.scene);
    if (this.scene.parts !== before?.parts) this.index = new SceneIndex(this.scene);
    this.refreshFigures();
    this.marks = marksOf(results ? results.report.cards.flatMap((c) => c.findings) : []);
    setScene(this.scene);
    if (this.lookedAt !== shown.id) this.lookFirst(this.scene);
    this.redraw();
  }

  private lookFirst(scene: Scene): void {
    const id = this.app.getState().plan?.id ?? null;
    if (this.lookedAt === id || this.view.w < 20) return;
    this.lookedAt = id;
    this.camera = firstLook(scene.bounds, this.view);
    this.app.getState().setCamera(this.camera);
  }

  private refreshFigures(): void {
    const { plan, results, resultsFor, keyPosition, band, showFigures } = this.app.getState();
    // Figures of another plan than the one drawn would be wrong, not old.
    this.byWire = plan && results && resultsFor === plan ? wireFigures(plan, results.analysis, keyPosition, band) : new Map();
    this.figures = showFigures && this.scene ? figureLabels(this.scene, this.byWire) : [];
  }

  readInks(): void {
    if (!this.mounts) return;
    const style = getComputedStyle(this.mounts.root);
    this.inks = inkTable((property) => style.getPropertyValue(property));
    this.readOptions();
  }

  private readOptions(): void {
    const feet = this.app.getState().units.length === 'ft';
    this.options = { edged: this.inks.edged, ...(feet ? { lengthText: (m: number) => `${(m / 0.3048).toFixed(1)} ft` } : {}) };
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
