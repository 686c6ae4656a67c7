import { overlaps } from '../drawing/box.ts';
import { GridIndex } from '../drawing/grid.ts';
import { textWidth } from '../drawing/text.ts';
import type { Box, Point } from '../drawing/types.ts';

/** Size of a wire's number tag, u. */
export function tagSize(tag: string): { readonly w: number; readonly h: number } {
  return { w: Math.max(20, textWidth(tag, 9, true) + 9), h: 14 };
}

/** Shares of a straight piece at which a tag may sit, best first. */
const SHARES = [0.5, 0.35, 0.65, 0.22, 0.78, 0.12, 0.88];

/** So many of the longest pieces are tried before a tag goes beside its wire. */
const PIECES = 3;

/** Finds places for number tags: on the longest straight pieces, else beside the wire, off other tags and off bodies. */
export class TagPlacer {
  private readonly taken = new GridIndex<Box>();

  constructor(bodies: Iterable<Box>) {
    for (const b of bodies) this.taken.add(b, b);
  }

  /** Keeps a tag where it is, if nothing stands there now. @returns whether it could stay */
  keep(at: Point, tag: string): boolean {
    if (tag === '') return true;
    const box = boxAt(at, tagSize(tag));
    if (!this.isFree(box)) return false;
    this.taken.add(box, box);
    return true;
  }

  /** @param size of the tag, where it is written larger than on screen */
  place(points: readonly number[], tag: string, { w, h } = tagSize(tag)): Point {
    const pieces: { x0: number; y0: number; x1: number; y1: number; length: number }[] = [];
    for (let i = 0; i + 3 < points.length; i += 2) {
      const [x0, y0, x1, y1] = [points[i] as number, points[i + 1] as number, points[i + 2] as number, points[i + 3] as number];
      pieces.push({ x0, y0, x1, y1, length: Math.abs(x1 - x0) + Math.abs(y1 - y0) });
    }
    pieces.sort((a, b) => b.length - a.length);
    const first = pieces[0];
    if (!first) return { x: points[0] ?? 0, y: points[1] ?? 0 };
    const tries = [...pieces.slice(0, PIECES).map((piece) => ({ piece, isAside: false })), ...pieces.map((piece) => ({ piece, isAside: true }))];
    for (const { piece, isAside } of tries) {
      const lying = piece.y0 === piece.y1;
      // A piece that the tag would cover carries it beside, so that the wire stays visible.
      const short = piece.length < (lying ? w : h) + 12;
      const aside = lying ? h / 2 + 4 : w / 2 + 4;
      for (const off of isAside ? [-aside, aside, 0] : short ? [-aside, aside] : [0]) {
        for (const share of short ? [0.5] : SHARES) {
          const at = {
            x: Math.round(piece.x0 + share * (piece.x1 - piece.x0)) + (lying ? 0 : off),
            y: Math.round(piece.y0 + share * (piece.y1 - piece.y0)) + (lying ? off : 0),
          };
          const box = boxAt(at, { w, h });
          if (!this.isFree(box)) continue;
          if (tag !== '') this.taken.add(box, box);
          return at;
        }
      }
    }
    return { x: (first.x0 + first.x1) / 2, y: (first.y0 + first.y1) / 2 };
  }

  private isFree(box: Box): boolean {
    return !this.taken.near(box).some((b) => overlaps(b, box));
  }
}

const boxAt = (at: Point, { w, h }: { readonly w: number; readonly h: number }): Box => ({ x: at.x - w / 2, y: at.y - h / 2, w, h });
