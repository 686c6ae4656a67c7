import type { Box, Point } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { Scene } from '../scene/types.ts';
import { since } from '../state/since.ts';
import type { App } from '../state/store.ts';
import type { AppState } from '../state/types.ts';
import { type Camera, firstLook, fitted, type View } from './camera.ts';
import { Care } from './care.ts';
import { Dressing } from './dressing.ts';
import { followDeviceColours, type InkTable } from './inks.ts';
import { type Live, nothingLive } from './live.ts';
import { Painter } from './painter.ts';
import { paintLive } from './paintLive.ts';
import { Pictures } from './pictures.ts';
import { LEAST_PX, type Mounts, Pixels } from './pixels.ts';
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
  /** The zone whose name was pressed: its edge shows a grip, which a finger needs. */
  zone: Id | null = null;
  /** A gesture holds the drawing still: new plans and results wait until it ends. */
  held = false;
  private readonly pixels: Pixels;
  private readonly pictures = new Pictures();
  private readonly care = new Care<Scene>(() => this.held || this.pixels.isMoving);
  private readonly dressing = new Dressing();
  private lookedAt: string | null = null;
  private stale = false;

  constructor(readonly app: App) {
    this.pixels = new Pixels(
      app.getState().camera,
      () => this.scene?.bounds ?? null,
      (camera) => app.getState().setCamera(camera),
    );
    const { plan, scene } = app.getState();
    // Back from the wiring sheet: the drawing is seen where it was.
    if (scene) this.lookedAt = plan?.id ?? null;
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
    this.pixels.resize(view, margin);
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
  get inks(): InkTable {
    return this.dressing.inks;
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
    const { scene, index, live, dressing } = this;
    if (!scene || !index) return;
    const box = this.pixels.drawnBox();
    const drawn = { scene, index, hidden: live.hidden };
    this.pixels.inWorld(c, (zoom) => dressing.paint(new Painter(c, this.inks, zoom), drawn, this.app.getState(), box, zoom));
  }

  paintLive(c: CanvasRenderingContext2D): void {
    const { scene, live, inks } = this;
    if (!scene) return;
    const state = this.app.getState();
    const { selection, pointed, wiringFrom, pressed } = state;
    const edge = edgeShown(scene.zones, live.edge, this.zone, this.camera, this.size);
    const figures = this.dressing.figuresOfChosen(scene, state, live.hidden);
    this.pixels.inWorld(c, (zoom) =>
      paintLive(new Painter(c, inks, zoom), { scene, live, selection, pointed, pressed, wiringFrom, figures, inks, edge }, zoom),
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
      this.dressing.readOptions(now);
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
    this.dressing.refreshMarks(this.app.getState());
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
    if (this.lookedAt === id || this.size.w < LEAST_PX) return;
    this.lookedAt = id;
    const first = scene.zones[0];
    this.pixels.camera = first && this.size.w < NARROW_PX ? zoneCamera(first.box, this.size) : firstLook(scene.bounds, this.size);
    this.app.getState().setCamera(this.camera);
  }

  private refreshFigures(): void {
    this.dressing.refreshFigures(this.app.getState(), this.scene);
  }

  readInks(): void {
    const { mounts } = this.pixels;
    if (mounts) this.dressing.readInks(mounts.root, this.app.getState());
  }
}
