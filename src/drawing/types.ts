/**
 * Drawing primitives: what a picture is made of, for the canvas and for SVG alike. Drawing units (u): 1 u = 1 px at
 * zoom 1. Colours are named inks, never values: each theme (and print) has its own table.
 */
export type Ink =
  | 'ink' // strong lines and text
  | 'soft' // secondary text, thin lines
  | 'faint' // hints, zone borders
  | 'paper' // the surface of modules
  | 'ground' // the surface behind everything
  | 'accent' // selection, live figures
  | 'vehicle' // the vehicle's own parts and wires
  | 'hazard'
  | 'fault'
  | 'advice'
  | 'edge' // thin edge round insulation that would vanish on its ground
  | 'zone-a' // the ground of zone columns, by turns
  | 'zone-b'
  | `wire-${string}` // insulation colour by IEC 60757 letters, e.g. `wire-RD`
  | `fuse-${string}`; // blade fuse body colour by rating, e.g. `fuse-5`

export interface Point {
  readonly x: number;
  readonly y: number;
}
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

export type Primitive =
  | {
      readonly t: 'line';
      readonly pts: readonly number[];
      readonly ink: Ink;
      readonly w: number;
      readonly dash?: readonly number[];
      readonly cap?: 'butt' | 'round';
    }
  | {
      readonly t: 'rect';
      readonly x: number;
      readonly y: number;
      readonly w: number;
      readonly h: number;
      readonly r?: number;
      readonly fill?: Ink;
      readonly ink?: Ink;
      readonly lw?: number;
    }
  | { readonly t: 'circle'; readonly x: number; readonly y: number; readonly r: number; readonly fill?: Ink; readonly ink?: Ink; readonly lw?: number }
  /** Closed or open polygon. */
  | { readonly t: 'poly'; readonly pts: readonly number[]; readonly fill?: Ink; readonly ink?: Ink; readonly lw?: number; readonly open?: boolean }
  /** Arc, angles in degrees clockwise from east. */
  | {
      readonly t: 'arc';
      readonly x: number;
      readonly y: number;
      readonly r: number;
      readonly from: number;
      readonly to: number;
      readonly ink: Ink;
      readonly w: number;
    }
  | {
      readonly t: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly size: number;
      readonly ink: Ink;
      readonly bold?: boolean;
      readonly anchor?: 'start' | 'middle' | 'end' /** kept upright when the part is turned; default true */;
      readonly upright?: boolean;
    };

export type Side = 'left' | 'right' | 'top' | 'bottom';

/** Where a terminal sits on its symbol, before turning; `side` is the way the wire leaves. */
export interface Pad {
  readonly x: number;
  readonly y: number;
  readonly side: Side;
}

/** A symbol in its own coordinates, 0,0 at the top left of its body; pads lie on multiples of 10. */
export interface SymbolDrawing {
  readonly w: number;
  readonly h: number;
  readonly primitives: readonly Primitive[];
  readonly pads: Readonly<Record<string, Pad>>;
}
