import { inflate, overlaps } from '../drawing/box.ts';
import { textWidth, wrapText } from '../drawing/text.ts';
import type { Box, Primitive } from '../drawing/types.ts';
import type { PlacedPad } from './types.ts';

/** Text sizes on the drawing, u. */
export const TEXT = { name: 12, sub: 10, label: 8.5, inline: 10.5 } as const;

const NAME_LINE = 14;
const SUB_LINE = 12;
const INLINE_LINE = 13;

interface Body {
  readonly w: number;
  readonly h: number;
  readonly primitives: readonly Primitive[];
  readonly pads: Readonly<Record<string, Omit<PlacedPad, 'label'> & { readonly label: string }>>;
}

export interface Labelled {
  readonly primitives: readonly Primitive[];
  /** Boxes of texts outside the body. */
  readonly outside: readonly Box[];
  /** The same texts at other places beside the body, best first, for where this one is taken. */
  readonly others?: readonly Labelled[];
}

/**
 * Writes a part's name, subtitle and terminal labels. Blocks carry their name inside when there is room; others, and
 * parts that sit in a wire, have it above (beside it when they stand upright), or else wherever there is room.
 * Coordinates are the turned symbol's own.
 * @param named the person's own name, '' when there is none
 * @param wired terminals in use: their header labels stand out
 */
export function label(body: Body, title: string, named: string, subtitle: string, isInline: boolean, wired: ReadonlySet<string>): Labelled {
  const pads = isInline ? [] : padLabels(body, wired);
  if (isInline) return inlineLabels(body, named, subtitle === '' && named === '' ? title : subtitle);
  const inside = insideLabels(body, named || title, subtitle, pads);
  if (inside) return { primitives: [...pads, ...inside], outside: [] };
  const saysItself = named === '' && body.primitives.some((p) => p.t === 'text' && p.text.length > 3);
  const above = aboveLabels(body, saysItself ? '' : named || title, subtitle);
  return { primitives: [...pads, ...above.primitives], outside: above.outside };
}

/** Short terminal labels just inside the edge, unless the symbol prints the label itself. */
function padLabels(body: Body, wired: ReadonlySet<string>): Primitive[] {
  const printed = new Set(body.primitives.flatMap((p) => (p.t === 'text' ? [p.text] : [])));
  const out: Primitive[] = [];
  for (const [id, pad] of Object.entries(body.pads)) {
    if (pad.label === '' || printed.has(pad.label)) continue;
    const bold = pad.form === 'header' && wired.has(id);
    const common = { t: 'text', text: pad.label, size: TEXT.label, ink: bold ? 'ink' : 'soft', bold } as const;
    if (pad.side === 'left') out.push({ ...common, x: pad.x + 6, y: pad.y + 3, anchor: 'start' });
    else if (pad.side === 'right') out.push({ ...common, x: pad.x - 6, y: pad.y + 3, anchor: 'end' });
    else out.push({ ...common, x: pad.x, y: pad.side === 'top' ? pad.y + 13 : pad.y - 6, anchor: 'middle' });
  }
  return out;
}

/** Free room that labels keep between each other, u. */
const CLEAR = 3;

function insideLabels(body: Body, name: string, subtitle: string, padTexts: readonly Primitive[]): Primitive[] | null {
  if (body.h < 50 || body.w < 60) return null;
  const taken = [...body.primitives.slice(1), ...padTexts].map((p) => inflate(boxOfPrimitive(p), CLEAR));
  for (const size of [TEXT.name, TEXT.name - 1.5]) {
    for (const lines of [[name], wrapText(name, size, body.w * 0.6, true)]) {
      const height = lines.length * NAME_LINE + (subtitle === '' ? 0 : SUB_LINE);
      for (const top of topsFrom((body.h - height) / 2, body.h - height - 4)) {
        const texts = nameLines(lines, subtitle, body.w / 2, top, size);
        const boxes = texts.map(boxOfPrimitive);
        if (boxes.some((b) => b.w > body.w - 8 || taken.some((t) => overlaps(t, b)))) continue;
        return texts;
      }
    }
  }
  return null;
}

/** Heights to try: the middle first, then by small steps away from it. */
function topsFrom(middle: number, last: number): number[] {
  const out = [middle];
  for (let d = 2; middle - d >= 4 || middle + d <= last; d += 2) {
    if (middle - d >= 4) out.push(middle - d);
    if (middle + d <= last) out.push(middle + d);
  }
  return out;
}

function nameLines(lines: readonly string[], subtitle: string, x: number, top: number, size: number): Primitive[] {
  const out: Primitive[] = lines.map((text, i) => ({ t: 'text', x, y: top + i * NAME_LINE + 11, text, size, ink: 'ink', bold: true, anchor: 'middle' }));
  if (subtitle !== '') out.push({ t: 'text', x, y: top + lines.length * NAME_LINE + 9, text: subtitle, size: TEXT.sub, ink: 'soft', anchor: 'middle' });
  return out;
}

function aboveLabels(body: Body, name: string, subtitle: string): Labelled {
  const names = name === '' ? [] : [name];
  if (name === '' && subtitle === '') return { primitives: [], outside: [] };
  const top = -(names.length * NAME_LINE + (subtitle === '' ? 0 : SUB_LINE)) - 4;
  const width = Math.max(textWidth(name, TEXT.name, true), textWidth(subtitle, TEXT.sub));
  return {
    primitives: nameLines(names, subtitle, body.w / 2, top, TEXT.name),
    outside: [{ x: (body.w - width) / 2, y: top, w: width, h: -top - 2 }],
  };
}

function inlineLabels(body: Body, named: string, figure: string): Labelled {
  const whole = inlineTexts([named], figure);
  if (whole.length === 0) return { primitives: [], outside: [] };
  const more = (whole.length - 1) * INLINE_LINE;
  if (body.h <= body.w) return { ...inlineAt(whole, body.w / 2, -5 - more, 'middle'), others: [inlineAt(whole, body.w / 2, body.h + 13, 'middle')] };
  const narrow = inlineTexts(wrapText(named, TEXT.sub, 0), figure);
  const [left, right] = [-5, body.w + 5];
  const middle = (texts: readonly InlineText[]): number => body.h / 2 + 4 - ((texts.length - 1) * INLINE_LINE) / 2;
  const [high, low] = [Math.min(middle(whole), 8), Math.max(middle(whole), body.h - more)];
  return {
    ...inlineAt(whole, right, middle(whole), 'start'),
    others: [
      inlineAt(whole, left, middle(whole), 'end'),
      ...(narrow.length > whole.length ? [inlineAt(narrow, right, middle(narrow), 'start'), inlineAt(narrow, left, middle(narrow), 'end')] : []),
      inlineAt(whole, right, high, 'start'),
      inlineAt(whole, right, low, 'start'),
      inlineAt(whole, left, high, 'end'),
      inlineAt(whole, left, low, 'end'),
    ],
  };
}

interface InlineText {
  readonly text: string;
  readonly isFigure: boolean;
}

function inlineTexts(name: readonly string[], figure: string): InlineText[] {
  return [...name.map((text) => ({ text, isFigure: false })), { text: figure, isFigure: true }].filter((t) => t.text !== '');
}

/** Lines of a label one under another, the first with its foot at the given height. */
function inlineAt(texts: readonly InlineText[], x: number, first: number, anchor: 'start' | 'middle' | 'end'): Labelled {
  const styled = texts.map((t) => ({ text: t.text, bold: t.isFigure, size: t.isFigure ? TEXT.inline : TEXT.sub }));
  const width = Math.max(...styled.map((t) => textWidth(t.text, t.size, t.bold)));
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return {
    primitives: styled.map((t, i) => ({ t: 'text', ...t, x, y: first + i * INLINE_LINE, ink: t.bold ? 'ink' : 'soft', anchor })),
    outside: [{ x: left, y: first - 10, w: width, h: texts.length * INLINE_LINE }],
  };
}

/** Rough box of a primitive, for finding free room. */
export function boxOfPrimitive(p: Primitive): Box {
  switch (p.t) {
    case 'rect':
      return p;
    case 'circle':
    case 'arc':
      return { x: p.x - p.r, y: p.y - p.r, w: 2 * p.r, h: 2 * p.r };
    case 'text': {
      const w = textWidth(p.text, p.size, p.bold);
      const x = p.anchor === 'middle' ? p.x - w / 2 : p.anchor === 'end' ? p.x - w : p.x;
      return { x, y: p.y - p.size * 0.8, w, h: p.size };
    }
    default: {
      const xs = p.pts.filter((_, i) => i % 2 === 0);
      const ys = p.pts.filter((_, i) => i % 2 === 1);
      const x = Math.min(...xs);
      const y = Math.min(...ys);
      return { x, y, w: Math.max(...xs) - x, h: Math.max(...ys) - y };
    }
  }
}
