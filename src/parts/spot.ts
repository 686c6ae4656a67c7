import type { Part } from '../plan/types.ts';
import { settingsOf } from './definePart.ts';
import { partKind } from './registry.ts';

const MARGIN = 30;
/** Kept free round a symbol for its name, labels and wires, drawing units. */
const AIR = 40;

export interface Extent {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** The box that a part's symbol fills in its zone, drawing units. */
export function extentOf(part: Pick<Part, 'kind' | 'x' | 'y' | 'turn' | 'settings'>): Extent {
  const kind = partKind(part.kind);
  const s = settingsOf(kind, part.settings);
  const { w, h } = kind.symbol(s, kind.terminals(s));
  return part.turn % 2 === 0 ? { x: part.x, y: part.y, w, h } : { x: part.x, y: part.y, w: h, h: w };
}

/** The first place in a zone, going down from its top left, where a box of that size clears what lies there. */
export function freeSpot(taken: readonly Extent[], w: number, h: number): { readonly x: number; readonly y: number } {
  for (let column = 0; column < 40; column++) {
    const x = MARGIN + column * 40;
    for (let y = MARGIN; y <= 600; y += 20) if (isClear(taken, x, y, w, h)) return { x, y };
  }
  const below = Math.max(0, ...taken.map((t) => t.y + t.h));
  return { x: MARGIN, y: below + AIR };
}

/** Does a box keep its distance from all that lies there? */
export function isClear(taken: readonly Extent[], x: number, y: number, w: number, h: number): boolean {
  return taken.every((t) => x >= t.x + t.w + AIR || t.x >= x + w + AIR || y >= t.y + t.h + AIR || t.y >= y + h + AIR);
}
