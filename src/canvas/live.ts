import type { Box, Point, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { PlacedPart, PlacedWire } from '../scene/types.ts';
import type { PadRef } from './sceneIndex.ts';

/** Parts in the hand: drawn on the live layer, shifted; their wires follow. */
export interface DragView {
  readonly parts: readonly PlacedPart[];
  readonly dx: number;
  readonly dy: number;
  readonly wires: readonly PlacedWire[];
}

/** A zone's right edge: where it would stand, world x, and from where it is dragged. */
export interface EdgeView {
  readonly zone: Id;
  readonly x: number;
  /** Absent = only under the pointer. */
  readonly from?: number;
}

/** What moves or lights up: everything on the live layer. Written by gestures, read by the painter. */
export interface Live {
  drag: DragView | null;
  /** Left out of the standing drawing while they are on the live layer. */
  hidden: ReadonlySet<Id>;
  /** The wire in the hand. */
  rubber: readonly number[] | null;
  /** Terminals that would make a sensible other end. */
  targets: readonly Point[];
  /** Terminal or place on a wire that a drop now would join. */
  target: Point | null;
  /** Wire that a drop now would cut or join. */
  dropWire: Id | null;
  box: Box | null;
  /** Something from the shelf, at world position x, y. */
  ghost: { readonly primitives: readonly Primitive[]; readonly x: number; readonly y: number } | null;
  /** A wire being bent by hand. */
  bent: { readonly id: Id; readonly points: readonly number[] } | null;
  hover: PadRef | null;
  /** Right edge of a zone under the pointer or in the hand. */
  edge: EdgeView | null;
}

export function nothingLive(): Live {
  return {
    drag: null,
    hidden: new Set(),
    rubber: null,
    targets: [],
    target: null,
    dropWire: null,
    box: null,
    ghost: null,
    bent: null,
    hover: null,
    edge: null,
  };
}
