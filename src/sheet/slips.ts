import { textWidth } from '../drawing/text.ts';
import type { Ink, Point, Primitive } from '../drawing/types.ts';
import type { PlacedWire } from '../scene/types.ts';

/** On paper small type is drawn this large at least, so that the drawing needs fewer pages, u. */
export const LEAST_TYPE_U = 10.6;

/** What stands at a wire on paper: its number and the letters of its colour. */
export function paperTag(wire: PlacedWire): string {
  return [wire.tag, letters(wire)].filter(Boolean).join(' ');
}

/** `RD/WH` of a red wire with a white stripe. */
function letters(wire: PlacedWire): string {
  const of = (ink: Ink | null): string => (ink?.startsWith('wire-') ? ink.slice(5) : '');
  return [of(wire.ink), of(wire.stripe)].filter(Boolean).join('/');
}

/** Size of a slip of paper with a text, u. */
export function slipSize(text: string): { readonly w: number; readonly h: number } {
  return { w: textWidth(text, LEAST_TYPE_U) + 5, h: LEAST_TYPE_U + 4 };
}

/** A short text on a slip of paper: number and colour letters of a wire, length of a run. */
export function slip(at: Point, text: string, ink: Ink): Primitive[] {
  if (text === '') return [];
  const { w, h } = slipSize(text);
  return [
    { t: 'rect', x: at.x - w / 2, y: at.y - h / 2, w, h, r: 2, fill: 'paper', ink, lw: 0.6 },
    { t: 'text', x: at.x, y: at.y + LEAST_TYPE_U * 0.36, text, size: LEAST_TYPE_U, ink: 'ink', anchor: 'middle' },
  ];
}
