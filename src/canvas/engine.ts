import type { Box, Point } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { PictureOptions } from '../scene/picture.ts';
import type { Scene } from '../scene/types.ts';
import { shownAnalysis } from '../state/shown.ts';
import { overlayOf, since } from '../state/since.ts';
import type { App } from '../state/store.ts';
import type { AppState } from '../state/types.ts';
import { type Camera, firstLook, fitted, type View } from './camera.ts';
import { Care } from './care.ts';
import { type FigureLabel, figureLabelOf, figureLabels } from './figureLabels.ts';
import { type WireFigures, wireFigures } from './figures.ts';
import { followDeviceColours, type InkTable, inkTable, readColours } from './inks.ts';
import { type Live, nothingLive } from './live.ts';
import { type Mark, marksOf } from './marks.ts';
import { Painter } from './painter.ts';
import { paintLive } from './paintLive.ts';
import { paintScene } from './paintScene.ts';
import { Pictures } from './pictures.ts';
import { type Mounts, Pixels } from './pixels.ts';
import { SceneIndex } from './sceneIndex.ts';
import { litTargets } from './targets.ts';
import { edgeShown } from './zoneEdge.ts';
import { NARROW_PX, zoneCamera } from './zoneView.ts';

/**
 * The drawing behind the surface: keeps scene, index and what is in the hand, follows the store, and says when to draw.
 */
export class Engine {
  scene: Scene | null = null;
  index: SceneIndex | null = null;
  live: Live = nothingLive();
  inks: InkTable;
  /** The zone whose name was pressed: its edge shows a grip, which a finger needs. */
  zone: Id | null = null;
  /** A gesture holds the drawing still: new plans and results wait until it ends. */
  held = false;
  private readonly pixels: Pixels;
  private readonly pictures = new Pictures();
  private readonly care = new Care<Scene>();
  private marks: readonly Mark[] = [];
  private figures: readonly FigureLabel[] = [];
  private byWire: ReadonlyMap<string, WireFigures> = new Map();
  private options: PictureOptions = {};
  private lookedAt: string | null = null;
  private stale = false;

  constructor(readonly app: App) {
    this.pixels = new Pixels(
      app.getState().camera,
      () => this.scene?.bounds ?? null,
      (camera) => app.getState().setCamera(camera),
    );
    this.inks = inkTable(() => '');
  }

  /** Ties the engine to its elements. @returns the function that unties it */
  mount(mounts: Mounts): () => void {
    this.pixels.mounts = mounts;
    this.readInks();
    this.refreshScene();
    const stop = this.app.subscribe((now, before) => this.onState(now, before));
    const unfollow = followDeviceColours(() => {
      this.readInks();
      this.redraw();
    });
    const leave = since.subscribe(() => this.redraw());
    return () => {
      stop();
      leave();
      unfollow();
      this.care.stop();
      this.pixels.unmount();
    };
  }

  resize(view: View, margin: number): void {
    this.pixels.view = view;
    this.pixels.margin = margin;
    if (this.scene) this.lookFirst(this.scene);
    this.redraw();
  }

  // --- places

  /** World point under a client position (of a pointer event). */
  worldOfClient(clientX: number, clientY: number): Point {
    const r = this.pixels.mounts?.root.getBoundingClientRect();
    return this.pixels.world(clientX - (r?.left ?? 0), clientY - (r?.top ?? 0));
  }
  /** Client position of a place on the surface, px. */
  clientOf(x: number, y: number): Point {
    const r = this.pixels.mounts?.root.getBoundingClientRect();
    return { x: x + (r?.left ?? 0), y: y + (r?.top ?? 0) };
  }
  screen(x: number, y: number): Point {
    return this.pixels.screen(x, y);
  }
  /** So many screen pixels in world units. */
  reach(px: number): number {
    return px / this.camera.zoom;
  }
  get size(): View {
    return this.pixels.view;
  }
  get camera(): Camera {
    return this.pixels.camera;
  }

  /** Shows the grip of a zone's edge, or none. */
  chooseZone(zone: Id | null): void {
    if (zone === this.zone) return;
    this.zone = zone;
    this.redrawLive();
  }

  // --- camera

  moveCamera(camera: Camera): void {
    this.pixels.move(camera);
  }

  fit(): void {
    if (this.scene) this.fitTo(this.scene.bounds);
  }

  /** Shows a box of the world, as large as it may be. */
  fitTo(box: Box): void {
    this.pixels.camera = fitted(box, this.size);
    this.pixels.settle();
  }

  // --- drawing

  redraw(): void {
    this.pixels.redraw();
  }
  redrawLive(): void {
    this.pixels.redrawLive();
  }

  paintStanding(c: CanvasRenderingContext2D): void {
    if (!this.scene || !this.index) return;
    const box = this.pixels.drawnBox();
    const report = this.app.getState().results?.report;
    const changes = overlayOf(this.scene);
    if (changes) {
      const quiet = { hidden: this.live.hidden, figures: [], marks: [], todo: {}, options: this.options };
      this.pixels.inWorld(c, (zoom) => {
        const painter = new Painter(c, this.inks, zoom);
        paintScene(painter, { scene: changes.drawn, index: indexOf(changes.drawn), ...quiet }, box, zoom);
        painter.all(changes.over);
      });
      return;
    }
    this.pixels.inWorld(c, (zoom) =>
      paintScene(
        new Painter(c, this.inks, zoom),
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
        zoom,
      ),
    );
  }

  paintLive(c: CanvasRenderingContext2D): void {
    const scene = this.scene;
    if (!scene) return;
    const { selection, pointed, wiringFrom, pressed } = this.app.getState();
    const edge = edgeShown(scene.zones, this.live.edge, this.zone, this.camera, this.size);
    const shown = new Set(this.app.getState().showFigures ? this.figures.map((f) => f.wire) : []);
    const figures = selection.wires.flatMap((id) => {
      const wire = scene.wires.get(id);
      const f = this.byWire.get(id);
      const label = wire && f && !shown.has(id) && !this.live.hidden.has(id) ? figureLabelOf(wire, f) : null;
      return label ? [label] : [];
    });
    this.pixels.inWorld(c, (zoom) =>
      paintLive(new Painter(c, this.inks, zoom), { scene, live: this.live, selection, pointed, pressed, wiringFrom, figures, inks: this.inks, edge }, zoom),
    );
  }

  // --- following the store

  private onState(now: AppState, before: AppState): void {
    const planned = now.plan !== before.plan || now.provisional !== before.provisional || now.results !== before.results;
    if (planned) {
      if (this.held) this.stale = true;
      else this.refreshScene();
    } else if (
      now.keyPosition !== before.keyPosition ||
      now.band !== before.band ||
      now.showFigures !== before.showFigures ||
      now.momentary !== before.momentary
    ) {
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
      this.pixels.camera = now.camera;
      this.redraw();
    }
    if (now.wiringFrom !== before.wiringFrom)
      this.live.targets = now.wiringFrom && now.plan && this.scene ? litTargets(now.plan, this.scene, now.wiringFrom) : [];
    if (now.selection !== before.selection || now.pointed !== before.pointed || now.pressed !== before.pressed || now.wiringFrom !== before.wiringFrom)
      this.redrawLive();
  }

  /**
   * Ends a gesture's hold on the drawing and catches up with what has changed meanwhile.
   * @param ways on which the wires in the hand ran last
   */
  release(ways?: ReadonlyMap<Id, readonly number[]>): void {
    this.held = false;
    if (this.stale) this.refreshScene(ways);
    else this.redraw();
  }

  refreshScene(ways?: ReadonlyMap<Id, readonly number[]>): void {
    this.stale = false;
    const { plan, provisional, results } = this.app.getState();
    const shown = provisional ?? plan;
    if (!shown) {
      this.scene = null;
      this.index = null;
      this.pictures.close();
      this.care.stop();
      this.redraw();
      return;
    }
    const scene = this.pictures.next(shown, results, ways);
    // A large plan is laid with care when the page has a moment.
    this.care.start(this.pictures.care(), (careful) => {
      this.pictures.done(careful);
      if (this.held) this.stale = true;
      else this.show(careful);
    });
    this.marks = marksOf(results ? results.report.cards.flatMap((c) => c.findings) : []);
    this.show(scene);
    if (this.lookedAt !== shown.id) this.lookFirst(scene);
  }

  private show(scene: Scene): void {
    this.scene = scene;
    this.index = new SceneIndex(scene);
    this.refreshFigures();
    this.app.getState().setScene(scene);
    this.redraw();
  }

  private lookFirst(scene: Scene): void {
    const id = this.app.getState().plan?.id ?? null;
    if (this.lookedAt === id || this.size.w < 20) return;
    this.lookedAt = id;
    const first = scene.zones[0];
    this.pixels.camera = first && this.size.w < NARROW_PX ? zoneCamera(first.box, this.size) : firstLook(scene.bounds, this.size);
    this.app.getState().setCamera(this.camera);
  }

  private refreshFigures(): void {
    const { plan, results, resultsFor, keyPosition, band, showFigures } = this.app.getState();
    const analysis = shownAnalysis(this.app.getState());
    // Figures of another plan than the one drawn would be wrong, not old.
    this.byWire = plan && results && analysis && resultsFor === plan ? wireFigures(results.filled, analysis, keyPosition, band) : new Map();
    this.figures = showFigures && this.scene ? figureLabels(this.scene, this.byWire) : [];
  }

  readInks(): void {
    const mounts = this.pixels.mounts;
    if (!mounts) return;
    this.inks = inkTable(readColours(mounts.root));
    this.readOptions();
  }

  private readOptions(): void {
    const feet = this.app.getState().units.length === 'ft';
    this.options = { edged: this.inks.edged, ...(feet ? { lengthText: (m: number) => `${(m / 0.3048).toFixed(1)} ft` } : {}) };
  }
}

/** Indexes of scenes that are only painted, never touched. */
const indexes = new WeakMap<Scene, SceneIndex>();
function indexOf(scene: Scene): SceneIndex {
  const index = indexes.get(scene) ?? new SceneIndex(scene);
  indexes.set(scene, index);
  return index;
}
