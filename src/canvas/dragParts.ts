import { centre, snap } from '../drawing/box.ts';
import { partKind } from '../parts/index.ts';
import { apply } from '../plan/apply.ts';
import { wiresOfPart } from '../plan/connect.ts';
import type { Id } from '../plan/types.ts';
import { zoneAt } from '../scene/layout.ts';
import { commit, moveEdit } from './commands.ts';
import { cutExisting, cutPlace, type InlineShape, inlineShape } from './cutIn.ts';
import { DragRoutes } from './dragRoutes.ts';
import type { Engine } from './engine.ts';
import type { Gesture, Press } from './gesture.ts';
import { nothingLive } from './live.ts';

/** How near to a wire a loose part must be dropped to be cut in, u. */
const CUT_REACH = 9;

/** Drags parts, also from zone to zone. The plan changes once, at the drop. */
export class DragParts implements Gesture {
  private routes: DragRoutes | null = null;
  private dx = Number.NaN;
  private dy = Number.NaN;
  private cutting: { readonly wire: Id; readonly shape: InlineShape } | null = null;
  private readonly shape: InlineShape | null;
  private zones: string;

  constructor(
    private readonly engine: Engine,
    private readonly ids: readonly Id[],
    private readonly from: Press,
    private readonly onClick: () => void,
  ) {
    const plan = engine.app.getState().plan;
    const only = ids.length === 1 ? plan?.parts[ids[0] as Id] : undefined;
    const loose = plan && only && wiresOfPart(plan, only.id).length === 0;
    this.shape = loose ? inlineShape(partKind(only.kind), only.settings) : null;
    this.zones = this.zonesAt(0);
  }

  click(): void {
    this.onClick();
  }

  move(at: Press): void {
    const { engine } = this;
    const scene = engine.scene;
    const plan = engine.app.getState().plan;
    if (!scene || !plan) return;
    const dx = snap(at.x - this.from.x);
    const dy = snap(at.y - this.from.y);
    if (dx === this.dx && dy === this.dy) return;
    this.dx = dx;
    this.dy = dy;
    if (!this.routes) {
      engine.held = true;
      this.routes = new DragRoutes(plan, scene, new Set(this.ids));
      engine.live.hidden = new Set([...this.ids, ...this.routes.ids]);
      engine.redraw();
    }
    const parts = this.ids.flatMap((id) => scene.parts.get(id) ?? []);
    engine.live.drag = { parts, dx, dy, wires: this.routes.at(() => ({ dx, dy })) };
    this.lookForWire();
    this.tellZones();
    engine.redrawLive();
  }

  drop(): void {
    const { engine, dx, dy } = this;
    const { plan, select, setProvisional } = engine.app.getState();
    const scene = engine.scene;
    const cutting = this.cutting;
    const ways = new Map(engine.live.drag?.wires.map((w) => [w.id, w.points]));
    this.letGo();
    if (plan && scene && (dx !== 0 || dy !== 0)) {
      const only = this.ids[0] as Id;
      const at = scene.parts.get(only);
      const middle = at && centre(at.box);
      const place = cutting && middle ? cutPlace(scene, cutting.wire, cutting.shape, middle.x + dx, middle.y + dy) : null;
      const cut = cutting && place ? cutExisting(plan, cutting.wire, only, place) : null;
      if (cut) {
        if (commit(engine.app, cut.edit)) select({ parts: [cut.id], wires: [] });
      } else commit(engine.app, moveEdit(plan, scene, this.ids, dx, dy));
    }
    if (engine.app.getState().provisional) setProvisional(null);
    engine.release(ways);
  }

  cancel(): void {
    this.letGo();
    if (this.engine.app.getState().provisional) this.engine.app.getState().setProvisional(null);
    this.engine.release();
  }

  private letGo(): void {
    this.engine.live = nothingLive();
    this.cutting = null;
  }

  /** A loose part over a wire would be cut in: show which. */
  private lookForWire(): void {
    const { engine, shape } = this;
    const part = engine.scene?.parts.get(this.ids[0] as Id);
    if (!shape || !part || !engine.index) return;
    const c = centre(part.box);
    const near = engine.index.wireNear(c.x + this.dx, c.y + this.dy, CUT_REACH);
    const row = near && engine.app.getState().plan?.wires[near.id];
    this.cutting = row && row.owner === 'build' && !row.fitted ? { wire: row.id, shape } : null;
    engine.live.dropWire = this.cutting?.wire ?? null;
  }

  /** In another zone lengths change, and with them the results: analysed as a provisional plan. */
  private tellZones(): void {
    const now = this.zonesAt(this.dx);
    if (now === this.zones) return;
    this.zones = now;
    const { plan, setProvisional } = this.engine.app.getState();
    if (!plan || !this.engine.scene) return;
    const moved = apply(plan, moveEdit(plan, this.engine.scene, this.ids, this.dx, this.dy));
    if (moved.ok) setProvisional(moved.plan);
  }

  private zonesAt(dx: number): string {
    const scene = this.engine.scene;
    if (!scene) return '';
    return this.ids
      .map((id) => {
        const part = scene.parts.get(id);
        return part ? (zoneAt(scene.zones, part.box.x + part.box.w / 2 + dx)?.id ?? '') : '';
      })
      .join();
  }
}
