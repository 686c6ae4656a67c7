import { textWidth } from '../../drawing/text.ts';
import type { Ink, Primitive } from '../../drawing/types.ts';

/** The strip needs no more than these. */
export type StripPiece = Extract<Primitive, { readonly t: 'line' | 'rect' | 'text' }>;

/** Room to the left of the plot for the volts, drawing units. */
export const LEFT = 34;
const SIZE = 12;

/** Width of a word of the strip, drawing units. */
export const wordWidth = (word: string, bold = false): number => textWidth(word, SIZE, bold);

export const text = (x: number, y: number, value: string, ink: Ink, anchor: 'start' | 'middle' | 'end', bold = false): StripPiece => ({
  t: 'text',
  x,
  y,
  text: value,
  size: SIZE,
  ink,
  anchor,
  bold,
});

export const line = (pts: readonly number[], ink: Ink, w: number, dash?: readonly number[]): StripPiece => ({
  t: 'line',
  pts,
  ink,
  w,
  ...(dash ? { dash } : {}),
});

/** Two short strokes across an axis: the scale changes here. */
export function breakMark(out: StripPiece[], x: number, y: number, axis: 'level' | 'upright'): void {
  const strokes =
    axis === 'level' ? [-1.5, 1.5].map((d) => [x + d - 2, y + 4, x + d + 2, y - 4]) : [-1.5, 1.5].map((d) => [x - 4, y + d + 2, x + 4, y + d - 2]);
  for (const pts of strokes) out.push(line(pts, 'ink', 1));
}

/** A name that does not push the plot off a small screen. */
export function short(name: string): string {
  return name.length > 18 ? `${name.slice(0, 17)}…` : name;
}
