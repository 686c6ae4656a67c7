import { snap } from '../drawing/box.ts';
import { cornersOf, simplify } from '../drawing/polyline.ts';
import { setWire } from '../plan/edits.ts';
import type { Id } from '../plan/types.ts';
import { bendsInZones } from '../scene/bends.ts';
import { commit } from './commands.ts';
import type { Engine } from './engine.ts';
import type { Gesture, Press } from './gesture.ts';
import { nothingLive } from './live.ts';

const STUB = 10;

/**
 * The line after one straight piece has been pushed sideways. The pieces at the pads keep a short stub, so that the
 * wire still leaves by its side.
 * @param n number of the piece, 0 = the one at the beginning
 */
export function pushPiece(points: readonly number[], n: number, dx: number, dy: number): number[] {
  const i = n * 2;
  const [x0, y0, x1, y1] = [points[i] as number, points[i + 1] as number, points[i + 2] as number, points[i + 3] as number];
  const lying = y0 === y1;
  const [mx, my] = lying ? [0, dy] : [dx, 0];
  const ux = Math.sign(x1 - x0) * STUB;
  const uy = Math.sign(y1 - y0) * STUB;
  const first = i === 0;
  const last = i + 4 >= points.length;
  const head = first ? [x0, y0, x0 + ux, y0 + uy, x0 + ux + mx, y0 + uy + my] : [...points.slice(0, i), x0 + mx, y0 + my];
  const tail = last ? [x1 - ux + mx, y1 - uy + my, x1 - ux, y1 - uy, x1, y1] : [x1 + mx, y1 + my, ...points.slice(i + 4)];
  return simplify([...head, ...tail]);
}

/** Pushes a straight piece of a wire sideways; the wire keeps its bends from then on. */
export class BendWire implements Gesture {
  private points: readonly number[] | null = null;

  constructor(
    private readonly engine: Engine,
    private readonly id: Id,
    private readonly piece: number,
    private readonly from: Press,
    private readonly onClick: () => void,
  ) {}

  click(): void {
    this.onClick();
  }

  move(at: Press): void {
    const { engine } = this;
    const wire = engine.scene?.wires.get(this.id);
    if (!wire) return;
    if (!engine.held) {
      engine.held = true;
      engine.live.hidden = new Set([this.id]);
      engine.redraw();
    }
    this.points = pushPiece(wire.points, this.piece, snap(at.x - this.from.x), snap(at.y - this.from.y));
    engine.live.bent = { id: this.id, points: this.points };
    engine.redrawLive();
  }

  drop(): void {
    const { engine, points } = this;
    const plan = engine.app.getState().plan;
    engine.live = nothingLive();
    const bends = points && engine.scene ? bendsInZones(cornersOf(points), engine.scene.zones) : null;
    if (plan && bends) commit(engine.app, { ...setWire(plan, this.id, { bends }), intent: 'wire.bend', label: 'Bend wire' });
    engine.release();
  }

  cancel(): void {
    this.engine.live = nothingLive();
    this.engine.release();
  }
}
