import type { Box, Ink, Point, Primitive, Side } from '../drawing/types.ts';
import type { TerminalForm } from '../parts/types.ts';
import type { Id, Owner } from '../plan/types.ts';

/** The plan as a picture in world drawing units: shared by canvas and sheet. Pure; no colours, only inks. */
export interface PlacedPart {
  readonly id: Id;
  readonly owner: Owner;
  /** Body box in world units after turning. */
  readonly box: Box;
  /** Primitives in world units, turned. */
  readonly primitives: readonly Primitive[];
  readonly pads: Readonly<Record<string, PlacedPad>>;
  readonly name: string;
  readonly item: string;
  /** Texts that stand outside the body: wires rather keep off them. */
  readonly labels: readonly Box[];
}
export interface PlacedPad extends Point {
  readonly side: Side;
  readonly label: string;
  readonly form: TerminalForm;
}

export interface PlacedWire {
  readonly id: Id;
  readonly owner: Owner;
  /** Right-angled polyline: x0, y0, x1, y1 ... */
  readonly points: readonly number[];
  readonly ink: Ink;
  readonly stripe: Ink | null;
  readonly width: number;
  readonly tag: string;
  /** It is in the vehicle already. */
  readonly fitted?: true;
  /** Middle of the longest straight piece, for the tag. */
  readonly tagAt: Point;
  /** Places where this wire passes over another: drawn with a gap in the lower one. */
  readonly crossings: readonly Point[];
}

export interface PlacedZone {
  readonly id: Id;
  readonly name: string;
  readonly box: Box;
  /** What its name and its parts need: it is never drawn narrower, u. */
  readonly leastW: number;
  readonly maxC: number;
  /** The chassis bar at its foot. */
  readonly bar: Box;
}

export interface Scene {
  readonly zones: readonly PlacedZone[];
  /** Run length labels on the borders between neighbouring zones; others are listed in the runs table. */
  readonly runs: readonly { readonly id: Id; readonly at: Point; readonly lengthM: number }[];
  readonly parts: ReadonlyMap<Id, PlacedPart>;
  readonly wires: ReadonlyMap<Id, PlacedWire>;
  /** Dots where wires meet at a splice or share a terminal. */
  readonly joints: readonly Point[];
  readonly bounds: Box;
}
