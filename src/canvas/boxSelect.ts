import { boxOf } from '../drawing/box.ts';
import type { Selection } from '../state/types.ts';
import type { Engine } from './engine.ts';
import type { Gesture, Press } from './gesture.ts';
import { nothingLive } from './live.ts';

/** Selects what lies wholly in a box; with shift it is added. A click on nothing selects nothing. */
export class BoxSelect implements Gesture {
  private readonly before: Selection;

  constructor(
    private readonly engine: Engine,
    private readonly from: Press,
  ) {
    this.before = engine.app.getState().selection;
  }

  click(at: Press): void {
    if (!at.shift) this.engine.app.getState().select({ parts: [], wires: [] });
  }

  move(at: Press): void {
    const { engine, before } = this;
    const box = boxOf(this.from, at);
    engine.live.box = box;
    const found = engine.index?.inside(box) ?? { parts: [], wires: [] };
    const both = (a: readonly string[], b: readonly string[]) => (this.from.shift ? [...new Set([...a, ...b])] : [...b]);
    engine.app.getState().select({ parts: both(before.parts, found.parts), wires: both(before.wires, found.wires) });
    engine.redrawLive();
  }

  drop(): void {
    this.engine.live = nothingLive();
    this.engine.redrawLive();
  }

  cancel(): void {
    this.engine.app.getState().select(this.before);
    this.drop();
  }
}

/** Drags the view. */
export class Pan implements Gesture {
  private last: Press;

  constructor(
    private readonly engine: Engine,
    from: Press,
    private readonly onClick?: (at: Press) => void,
  ) {
    this.last = from;
  }

  click(at: Press): void {
    this.onClick?.(at);
  }

  move(at: Press): void {
    const { camera } = this.engine;
    const dx = at.clientX - this.last.clientX;
    const dy = at.clientY - this.last.clientY;
    this.last = at;
    this.engine.moveCamera({ ...camera, x: camera.x - dx / camera.zoom, y: camera.y - dy / camera.zoom });
  }

  drop(_at?: Press): void {}
  cancel(): void {}
}
