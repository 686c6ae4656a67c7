import { contains, inflate } from '../drawing/box.ts';
import { distanceToSegment, GridIndex } from '../drawing/grid.ts';
import type { Box, Point } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { PlacedPad, PlacedPart, PlacedWire, Scene } from '../scene/types.ts';

export interface PadRef {
  readonly part: Id;
  readonly terminal: string;
}
export type Hit =
  | { readonly kind: 'pad'; readonly pad: PadRef }
  | { readonly kind: 'part'; readonly id: Id }
  | { readonly kind: 'wire'; readonly id: Id; readonly piece: number };

interface Piece {
  readonly wire: PlacedWire;
  readonly n: number;
}

/** A joint is mostly terminal: its core moves it, the ring around the core starts a wire. */
const JOINT_CORE = 6;

/** Answers what lies where in a scene, and what is in view. Built once per scene. */
export class SceneIndex {
  private readonly parts = new GridIndex<PlacedPart>(200);
  private readonly pads = new GridIndex<{ readonly ref: PadRef; readonly pad: PlacedPad }>();
  private readonly pieces = new GridIndex<Piece>();

  constructor(readonly scene: Scene) {
    for (const part of scene.parts.values()) {
      this.parts.add(part, inflate(part.box, 2));
      for (const [terminal, pad] of Object.entries(part.pads)) this.pads.add({ ref: { part: part.id, terminal }, pad }, { x: pad.x, y: pad.y, w: 0, h: 0 });
    }
    for (const wire of scene.wires.values()) {
      for (let i = 0; i + 3 < wire.points.length; i += 2) this.pieces.add({ wire, n: i / 2 }, pieceBox(wire.points, i));
    }
  }

  /** What a press at this point means: a terminal, then a body, then a wire. `reach` in world units. */
  hit(x: number, y: number, reach: number): Hit | null {
    const pad = this.padNear(x, y, reach);
    const part = this.partAt(x, y);
    if (pad) {
      const p = this.scene.parts.get(pad.part)?.pads[pad.terminal];
      const core = p?.form === 'splice' && Math.hypot(p.x - x, p.y - y) <= JOINT_CORE;
      return core || (part === pad.part && this.meansBody(part, p, x, y)) ? { kind: 'part', id: pad.part } : { kind: 'pad', pad };
    }
    if (part) return { kind: 'part', id: part };
    const wire = this.wireNear(x, y, reach * 0.75);
    return wire ? { kind: 'wire', ...wire } : null;
  }

  /** Inside a body that is small under a finger: is the press nearer to its middle than to its terminal? */
  private meansBody(id: Id, pad: PlacedPad | undefined, x: number, y: number): boolean {
    const box = this.scene.parts.get(id)?.box;
    return box !== undefined && pad !== undefined && Math.hypot(box.x + box.w / 2 - x, box.y + box.h / 2 - y) < Math.hypot(pad.x - x, pad.y - y);
  }

  /** Nearest terminal within reach. */
  padNear(x: number, y: number, reach: number): PadRef | null {
    let best: PadRef | null = null;
    let least = reach;
    for (const { ref, pad } of this.pads.near(around(x, y, reach))) {
      const d = Math.hypot(pad.x - x, pad.y - y);
      if (d <= least) {
        least = d;
        best = ref;
      }
    }
    return best;
  }

  /** Topmost body at a point. */
  partAt(x: number, y: number): Id | null {
    const found = this.parts.near({ x, y, w: 0, h: 0 }).filter((p) => contains(p.box, x, y));
    return found[found.length - 1]?.id ?? null;
  }

  /** Nearest wire within reach; ties go to the upper one. */
  wireNear(x: number, y: number, reach: number, skip?: ReadonlySet<Id>): { readonly id: Id; readonly piece: number } | null {
    let best: { id: Id; piece: number } | null = null;
    let least = reach;
    for (const { wire, n } of this.pieces.near(around(x, y, reach))) {
      if (skip?.has(wire.id)) continue;
      const p = wire.points;
      const i = n * 2;
      const d = distanceToSegment(x, y, p[i] as number, p[i + 1] as number, p[i + 2] as number, p[i + 3] as number) - wire.width / 2;
      if (d <= least) {
        least = d;
        best = { id: wire.id, piece: n };
      }
    }
    return best;
  }

  /** Parts and wires wholly inside a box. */
  inside(box: Box): { readonly parts: Id[]; readonly wires: Id[] } {
    const holds = (b: Box) => b.x >= box.x && b.y >= box.y && b.x + b.w <= box.x + box.w && b.y + b.h <= box.y + box.h;
    const parts = this.parts.near(box).flatMap((p) => (holds(p.box) ? [p.id] : []));
    const seen = new Set<Id>();
    const wires: Id[] = [];
    for (const { wire } of this.pieces.near(box)) {
      if (seen.has(wire.id)) continue;
      seen.add(wire.id);
      let all = true;
      for (let i = 0; i < wire.points.length && all; i += 2) all = contains(box, wire.points[i] as number, wire.points[i + 1] as number);
      if (all) wires.push(wire.id);
    }
    return { parts, wires };
  }

  /** Wires with a piece in the box, in drawing order. */
  wiresIn(box: Box): PlacedWire[] {
    const ids = new Set(this.pieces.near(inflate(box, 8)).map((p) => p.wire.id));
    const out: PlacedWire[] = [];
    for (const wire of this.scene.wires.values()) if (ids.has(wire.id)) out.push(wire);
    return out;
  }

  partsIn(box: Box): PlacedPart[] {
    return this.parts.near(inflate(box, 60));
  }
}

function around(x: number, y: number, r: number): Box {
  return { x: x - r, y: y - r, w: 2 * r, h: 2 * r };
}

function pieceBox(p: readonly number[], i: number): Box {
  const [x0, y0, x1, y1] = [p[i] as number, p[i + 1] as number, p[i + 2] as number, p[i + 3] as number];
  return { x: Math.min(x0, x1), y: Math.min(y0, y1), w: Math.abs(x1 - x0), h: Math.abs(y1 - y0) };
}

/** The point on a wire nearest to a given one. */
export function nearestOn(points: readonly number[], x: number, y: number): Point & { readonly lying: boolean; readonly along: number } {
  let best = { x: points[0] ?? 0, y: points[1] ?? 0, lying: true, along: 0 };
  let least = Number.POSITIVE_INFINITY;
  let run = 0;
  for (let i = 0; i + 3 < points.length; i += 2) {
    const [x0, y0, x1, y1] = [points[i] as number, points[i + 1] as number, points[i + 2] as number, points[i + 3] as number];
    const px = Math.min(Math.max(x, Math.min(x0, x1)), Math.max(x0, x1));
    const py = Math.min(Math.max(y, Math.min(y0, y1)), Math.max(y0, y1));
    const d = Math.hypot(px - x, py - y);
    if (d < least) {
      least = d;
      best = { x: px, y: py, lying: y0 === y1, along: run + Math.abs(px - x0) + Math.abs(py - y0) };
    }
    run += Math.abs(x1 - x0) + Math.abs(y1 - y0);
  }
  return best;
}
