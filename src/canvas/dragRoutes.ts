import { route } from '../drawing/route.ts';
import { LaneSearch } from '../drawing/search.ts';
import type { Id, Plan, Wire } from '../plan/types.ts';
import { bendsOnDrawing } from '../scene/bends.ts';
import { endsOf, lanesOf } from '../scene/lanesOf.ts';
import type { PlacedPart, PlacedWire, Scene } from '../scene/types.ts';

/** States that searching may settle for one move of the pointer, and for one wire of it: keeps a move well inside a frame. */
const BUDGET = 2500;
const ONE_WIRE = 900;

/**
 * Routes the wires of parts in the hand, quickly: lanes with everything else are laid once, at the start of the drag;
 * every move only routes the wires that hang on the moved parts, in simple shapes.
 */
export class DragRoutes {
  private readonly map;
  private readonly search;
  private readonly wires: readonly Wire[];
  /** The wires that follow. */
  readonly ids: ReadonlySet<Id>;

  constructor(
    plan: Plan,
    private readonly scene: Scene,
    private readonly moving: ReadonlySet<Id>,
  ) {
    this.wires = Object.values(plan.wires).filter((w) => moving.has(w.from.part) || moving.has(w.to.part));
    this.ids = new Set(this.wires.map((w) => w.id));
    this.map = lanesOf(scene.zones, scene.parts.values(), moving);
    for (const wire of scene.wires.values()) if (!this.ids.has(wire.id)) this.map.mark(wire.points);
    this.search = new LaneSearch(this.map);
  }

  /** Wires as they run with the parts shifted by dx, dy; `shiftOf` says how far each part has gone. */
  at(shiftOf: (id: Id) => { readonly dx: number; readonly dy: number }): PlacedWire[] {
    const parts = new Map(this.scene.parts);
    for (const id of this.moving) {
      const part = this.scene.parts.get(id);
      const { dx, dy } = shiftOf(id);
      if (part) parts.set(id, withPads(part, dx, dy));
    }
    const marked: (readonly number[])[] = [];
    let budget = BUDGET;
    const out = this.wires.flatMap((wire): PlacedWire[] => {
      const old = this.scene.wires.get(wire.id);
      const ends = endsOf(wire, parts);
      if (!old || !ends) return [];
      const both = this.moving.has(wire.from.part) && this.moving.has(wire.to.part);
      const { dx, dy } = shiftOf(wire.from.part);
      let points: readonly number[];
      if (both) points = shifted(old.points, dx, dy);
      else {
        this.search.settled = 0;
        points = route(this.map, this.search, ends[0], ends[1], {
          bends: wire.bends && bendsOnDrawing(wire.bends, this.scene.zones),
          effort: 'quick',
          before: old.points,
          limit: Math.min(budget, ONE_WIRE),
        });
        budget -= this.search.settled;
      }
      this.map.mark(points);
      marked.push(points);
      return [{ ...old, points, crossings: [], tagAt: middleOf(points) }];
    });
    for (const points of marked) this.map.mark(points, -1);
    return out;
  }
}

function withPads(part: PlacedPart, dx: number, dy: number): PlacedPart {
  const pads = Object.fromEntries(Object.entries(part.pads).map(([id, pad]) => [id, { ...pad, x: pad.x + dx, y: pad.y + dy }]));
  return { ...part, pads, box: { ...part.box, x: part.box.x + dx, y: part.box.y + dy } };
}

export function shifted(points: readonly number[], dx: number, dy: number): number[] {
  return points.map((v, i) => v + (i % 2 === 0 ? dx : dy));
}

function middleOf(points: readonly number[]): { x: number; y: number } {
  let best = -1;
  let at = { x: points[0] ?? 0, y: points[1] ?? 0 };
  for (let i = 0; i + 3 < points.length; i += 2) {
    const [x0, y0, x1, y1] = [points[i] as number, points[i + 1] as number, points[i + 2] as number, points[i + 3] as number];
    const length = Math.abs(x1 - x0) + Math.abs(y1 - y0);
    if (length > best) {
      best = length;
      at = { x: (x0 + x1) / 2, y: (y0 + y1) / 2 };
    }
  }
  return at;
}
