import type { Box, Ink, Primitive } from '../drawing/types.ts';
import { COLOURS } from '../trade/colours.ts';
import { bladeColour } from '../trade/fuses.ts';
import type { ColourCode } from '../trade/words.ts';
import { escapeText } from './markup.ts';

/**
 * Inks on white paper. Everything that carries meaning is near black, so that a black-and-white print loses nothing;
 * insulation colours are printed too, but always inside a black outline and beside their letters.
 */
const PRINT: Readonly<Record<string, string>> = {
  ink: '#000',
  soft: '#333',
  faint: '#777',
  paper: '#fff',
  ground: '#fff',
  'zone-a': '#fff',
  'zone-b': '#e8e8e8',
  edge: '#000',
  accent: '#000',
  vehicle: '#666',
  hazard: '#000',
  fault: '#000',
  advice: '#000',
};

/** The colour that an ink has in print. */
export function printInk(ink: Ink): string {
  const plain = PRINT[ink];
  if (plain !== undefined) return plain;
  if (ink.startsWith('wire-')) return COLOURS[ink.slice(5) as ColourCode]?.hex ?? '#000';
  return bladeColour(Number(ink.slice(5))).hex;
}

export interface SvgOptions {
  /** Part of the world that is shown, drawing units. */
  readonly view: Box;
  /** Title for a screen reader. */
  readonly title: string;
  /** Size on paper, mm; absent = as wide as its place. */
  readonly widthMm?: number;
  readonly heightMm?: number;
  /** Serial for ids, so that several drawings fit one document. Default 1. */
  readonly serial?: number;
  /** Dark text stands in a rim of paper, so that a line behind it does not cross it out. */
  readonly halo?: boolean;
}

/**
 * Primitives as SVG text, in their order. Decimals are rounded to hundredths and ids are numbered, so that the same
 * plan always gives the same text.
 */
export function svgOf(primitives: readonly Primitive[], options: SvgOptions): string {
  const { view, serial = 1 } = options;
  const size =
    options.widthMm === undefined || options.heightMm === undefined ? '' : ` width="${round(options.widthMm)}mm" height="${round(options.heightMm)}mm"`;
  const id = `drawing-${serial}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg"${size} viewBox="${[view.x, view.y, view.w, view.h].map(round).join(' ')}" role="img" aria-labelledby="${id}" font-family="Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif" stroke-linejoin="round">`,
    `<title id="${id}">${escapeText(options.title)}</title>`,
    ...primitives.map((p) => element(p, options.halo === true)),
    '</svg>',
  ].join('\n');
}

function element(p: Primitive, halo: boolean): string {
  switch (p.t) {
    case 'line': {
      const dash = p.dash ? ` stroke-dasharray="${p.dash.map(round).join(' ')}"` : '';
      const cap = p.cap === 'round' ? ' stroke-linecap="round"' : '';
      return `<polyline points="${points(p.pts)}" fill="none" stroke="${printInk(p.ink)}" stroke-width="${round(p.w)}"${dash}${cap}/>`;
    }
    case 'rect':
      return `<rect x="${round(p.x)}" y="${round(p.y)}" width="${round(p.w)}" height="${round(p.h)}"${p.r ? ` rx="${round(p.r)}"` : ''}${paint(p)}/>`;
    case 'circle':
      return `<circle cx="${round(p.x)}" cy="${round(p.y)}" r="${round(p.r)}"${paint(p)}/>`;
    case 'poly':
      return `<${p.open ? 'polyline' : 'polygon'} points="${points(p.pts)}"${paint(p)}/>`;
    case 'arc':
      return `<path d="${arcPath(p.x, p.y, p.r, p.from, p.to)}" fill="none" stroke="${printInk(p.ink)}" stroke-width="${round(p.w)}"/>`;
    case 'text': {
      const anchor = p.anchor && p.anchor !== 'start' ? ` text-anchor="${p.anchor}"` : '';
      const rim = halo && p.ink !== 'paper' ? ` stroke="#fff" stroke-width="3" paint-order="stroke"` : '';
      return `<text x="${round(p.x)}" y="${round(p.y)}" font-size="${round(p.size)}" fill="${printInk(p.ink)}"${p.bold ? ' font-weight="700"' : ''}${anchor}${rim}>${escapeText(p.text)}</text>`;
    }
  }
}

function paint(p: { readonly fill?: Ink; readonly ink?: Ink; readonly lw?: number }): string {
  const fill = ` fill="${p.fill ? printInk(p.fill) : 'none'}"`;
  return p.ink ? `${fill} stroke="${printInk(p.ink)}" stroke-width="${round(p.lw ?? 1)}"` : fill;
}

function points(pts: readonly number[]): string {
  const pairs: string[] = [];
  for (let i = 0; i + 1 < pts.length; i += 2) pairs.push(`${round(pts[i] as number)},${round(pts[i + 1] as number)}`);
  return pairs.join(' ');
}

/** Angles in degrees clockwise from east, as on screen; a full turn is drawn as two halves. */
function arcPath(x: number, y: number, r: number, from: number, to: number): string {
  const sweep = to - from;
  if (Math.abs(sweep) >= 360) return `${arcPath(x, y, r, from, from + 180)} ${arcPath(x, y, r, from + 180, from + 360)}`;
  const at = (deg: number): string => `${round(x + r * Math.cos((deg * Math.PI) / 180))} ${round(y + r * Math.sin((deg * Math.PI) / 180))}`;
  return `M${at(from)} A${round(r)} ${round(r)} 0 ${Math.abs(sweep) > 180 ? 1 : 0} ${sweep > 0 ? 1 : 0} ${at(to)}`;
}

/** Hundredths, without trailing zeros and without minus zero. */
function round(value: number): string {
  return String(Math.round(value * 100) / 100 + 0);
}
