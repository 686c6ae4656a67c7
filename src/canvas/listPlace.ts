import type { Point } from '../drawing/types.ts';
import type { View } from './camera.ts';

/** The list of ends: its width, its usual height with seven rows, and its distance from the terminal, px. */
export const LIST = { w: 260, h: 380, aside: 16, gap: 14, edge: 8 } as const;
/** Below this height a list is all scrolling. */
const LEAST_H = 120;

export interface ListPlace {
  readonly left: number;
  readonly width: number;
  /** Distance to the top or to the bottom of the surface: whichever the list grows from. */
  readonly top?: number;
  readonly bottom?: number;
  readonly maxHeight: number;
}

/**
 * Where a list beside a terminal hides the fewest of the terminals it names: right or left of it, below or above. Of equals
 * the one with more height, then the right one.
 * @param at the terminal on the surface, px
 * @param targets terminals the wire may go to, px
 */
export function listPlace(at: Point, size: View, targets: readonly Point[]): ListPlace {
  const { w, edge, gap, aside } = LIST;
  const across = [at.x + aside, at.x - aside - w].map((x) => Math.max(edge, Math.min(x, size.w - w - edge)));
  const room = [
    { down: true, h: size.h - at.y - gap - edge },
    { down: false, h: at.y - gap - edge },
  ];
  const places = across.flatMap((left) =>
    room.map(({ down, h }) => {
      const shown = Math.min(h, LIST.h);
      const top = down ? at.y + gap : at.y - gap - shown;
      const hidden = targets.filter((t) => t.x >= left && t.x <= left + w && t.y >= top && t.y <= top + shown).length;
      return { left, down, h, shown, hidden };
    }),
  );
  const roomy = places.filter((p) => p.h >= LEAST_H);
  const best = (roomy.length > 0 ? roomy : places).reduce((a, b) => (b.hidden < a.hidden || (b.hidden === a.hidden && b.shown > a.shown) ? b : a));
  const place = { left: best.left, width: w, maxHeight: best.h };
  return best.down ? { ...place, top: at.y + gap } : { ...place, bottom: size.h - at.y + gap };
}
