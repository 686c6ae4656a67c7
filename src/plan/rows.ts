import { patched } from './draft.ts';
import type { End, Id, Owner, Part, Values, Wire } from './types.ts';

/** Parts lie on this grid, drawing units. */
export const GRID = 10;
/** Nearest grid position; adding 0 turns -0 into 0, which JSON would do anyway. */
export const snap = (v: number): number => Math.round(v / GRID) * GRID + 0;

/** What a caller says of a new part; `x`, `y` in drawing units inside the zone, snapped to the grid and never left of the zone or above it. */
export interface NewPart {
  readonly kind: string;
  readonly zone: Id;
  readonly x: number;
  readonly y: number;
  readonly turn?: Part['turn'];
  readonly settings?: Values;
  readonly name?: string;
  /** Default `build`; the vehicle's own parts must say so. */
  readonly owner?: Owner;
  readonly note?: string;
}

/** Everything a wire may carry beyond its id and ends; absent = automatic. */
export type WireExtras = Partial<Omit<Wire, 'id' | 'from' | 'to'>>;

/** What a person calls a part: its own name, else its kind in words. */
export function nameOf(part: Pick<Part, 'kind' | 'name'>): string {
  return part.name ?? part.kind.replaceAll('-', ' ');
}

export function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? '' : 's'}`;
}

export function fresh(id: Id, part: NewPart): Part {
  return {
    id,
    kind: part.kind,
    owner: part.owner ?? 'build',
    zone: part.zone,
    x: Math.max(0, snap(part.x)),
    y: Math.max(0, snap(part.y)),
    turn: part.turn ?? 0,
    settings: part.settings ?? {},
    ...(part.name === undefined ? {} : { name: part.name }),
    ...(part.note === undefined ? {} : { note: part.note }),
  };
}

/** A wire row; the owner is the build unless said. */
export function linked(id: Id, from: End, to: End, extras: WireExtras = {}): Wire {
  return patched<Wire>({ id, owner: 'build', from, to }, extras);
}
