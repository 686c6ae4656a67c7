import { breakMark, LEFT, line, type StripPiece, text, wordWidth } from './pieces.ts';
import type { TimeScale } from './scale.ts';

export const AXIS_H = 22;

/** The time axis, its scale changes marked. */
export function axis(out: StripPiece[], scale: TimeScale, y: number, x1: number): void {
  out.push(line([LEFT, y, x1, y], 'soft', 1));
  for (const tick of scale.ticks) {
    out.push(line([tick.x, y, tick.x, y + 4], 'soft', 1));
    const half = wordWidth(tick.label) / 2;
    const x = Math.min(Math.max(tick.x, LEFT + half - 8), x1 - half + 8);
    out.push(text(x, y + 15, tick.label, 'soft', 'middle'));
  }
  for (const s of scale.stretches) {
    if (s.squeezed) out.push({ t: 'rect', x: s.x0, y: y - 2.5, w: s.x1 - s.x0, h: 5, fill: 'paper' }, line([s.x0, y, s.x1, y], 'soft', 1, [2, 3]));
  }
  for (const x of scale.breaks) breakMark(out, x, y, 'level');
}

/** Room that one name takes under the axis, drawing units. */
export interface Label {
  readonly from: number;
  readonly to: number;
}

/**
 * Rows for names under moments, so that none covers another. Earlier ones choose first.
 * @returns for each label the first row where it fits, or null where none has room
 */
export function labelRows(labels: readonly Label[], rows: number): readonly (number | null)[] {
  const taken: Label[][] = Array.from({ length: rows }, () => []);
  return labels.map((label) => {
    const row = taken.findIndex((others) => others.every((o) => o.to <= label.from || label.to <= o.from));
    if (row < 0) return null;
    taken[row]!.push(label);
    return row;
  });
}
