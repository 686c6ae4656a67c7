import type { Id } from '../plan/types.ts';
import { widthEdit, widthNear } from '../scene/zoneWidth.ts';
import { commit } from './commands.ts';
import type { Engine } from './engine.ts';
import type { Gesture, Press } from './gesture.ts';
import { nothingLive } from './live.ts';

/** So near to the side of the view the drawing moves along, px, and by so much each frame. */
const SIDE = { px: 28, step: 7 } as const;

/** Drags the right edge of a zone; everything right of it follows at the drop. */
export class DragEdge implements Gesture {
  private width: number | null = null;
  private last: Press;
  private frame = 0;

  constructor(
    private readonly engine: Engine,
    private readonly id: Id,
    private readonly from: Press,
    private readonly onClick: (at: Press) => void,
  ) {
    this.last = from;
  }

  click(at: Press): void {
    this.onClick(at);
  }

  move(at: Press): void {
    this.last = at;
    this.engine.held = true;
    this.show();
    if (this.frame === 0 && this.towardsSide() !== 0) this.frame = requestAnimationFrame(this.along);
  }

  drop(): void {
    const { engine, width } = this;
    const zone = this.zone();
    const { plan } = engine.app.getState();
    this.letGo();
    if (plan && zone && width !== null && width !== zone.box.w) commit(engine.app, widthEdit(plan, zone, width));
    engine.release();
  }

  cancel(): void {
    this.letGo();
    this.engine.release();
  }

  private zone() {
    return this.engine.scene?.zones.find((z) => z.id === this.id);
  }

  private show(): void {
    const zone = this.zone();
    if (!zone) return;
    const edge = zone.box.x + zone.box.w;
    const { x } = this.engine.worldOfClient(this.last.clientX, this.last.clientY);
    this.width = widthNear(zone, zone.box.w + x - this.from.x);
    this.engine.live.edge = { zone: zone.id, x: zone.box.x + this.width, from: edge };
    this.engine.redrawLive();
  }

  /** 1 = pulled out to the right side of the view, -1 = to the left, 0 = neither. */
  private towardsSide(): -1 | 0 | 1 {
    const { engine, last, from } = this;
    const px = last.clientX - engine.clientOf(0, 0).x;
    if (px > engine.size.w - SIDE.px && last.clientX > from.clientX) return 1;
    return px < SIDE.px && last.clientX < from.clientX ? -1 : 0;
  }

  private readonly along = (): void => {
    this.frame = 0;
    const side = this.towardsSide();
    if (side === 0) return;
    const { camera } = this.engine;
    this.engine.moveCamera({ ...camera, x: camera.x + (side * SIDE.step) / camera.zoom });
    this.show();
    this.frame = requestAnimationFrame(this.along);
  };

  private letGo(): void {
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    this.engine.live = nothingLive();
  }
}
