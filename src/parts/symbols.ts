import type { Ink, Pad, Primitive, Side, SymbolDrawing } from '../drawing/types.ts';

/**
 * Shared pieces of part symbols. Glyphs follow IEC 60617 where it has one (fuse, resistor, capacitor, diode, coil,
 * contact, battery, frame) and lie along x, centred on `cx`, `cy`; drawing units. Shapes from memory of the standard.
 */

/** Stroke of symbols and leads, u. */
export const LINE_U = 1.5;
/** Distance between neighbouring terminals of one side, u. */
export const PITCH_U = 20;
/** In-line parts: body box and pad height, u. */
export const INLINE = { w: 60, h: 20, y: 10 } as const;

/** A straight or bent line through x0, y0, x1, y1 ... */
export function stroke(pts: readonly number[], ink: Ink = 'ink', w: number = LINE_U): Primitive {
  return { t: 'line', pts, ink, w, cap: 'round' };
}

/** Several separate lines at once. */
export function strokes(lines: readonly (readonly number[])[], ink: Ink = 'ink', w: number = LINE_U): Primitive[] {
  return lines.map((pts) => stroke(pts, ink, w));
}

/** Height of the middle of a capital above the baseline, share of the text size. */
const CAP_MIDDLE = 0.36;

/** Short text inside a symbol; `y` is the middle of its capitals (the primitive itself wants the baseline). */
export function mark(x: number, y: number, text: string, size = 9, ink: Ink = 'ink', anchor: 'start' | 'middle' | 'end' = 'middle', bold = false): Primitive {
  return { t: 'text', x, y: y + size * CAP_MIDDLE, text, size, ink, anchor, bold };
}

/** Terminal ids of one side in order; `null` leaves that place empty. */
export type SideIds = readonly (string | null)[];
export interface ModuleSides {
  readonly left?: SideIds;
  readonly right?: SideIds;
  readonly top?: SideIds;
  readonly bottom?: SideIds;
}

/**
 * A plain labelled block with terminals on its edges, centred on each side at pitch 20. It draws no name: the scene
 * writes name and subtitle inside when the block is at least 50 high.
 * @param w width, a multiple of 20 so that pads of top and bottom fall on tens
 * @param h height, a multiple of 20; grown when a side has more terminals than fit
 */
export function moduleBox(sides: ModuleSides, w = 120, h = 60, more: readonly Primitive[] = [], ink: Ink = 'ink'): SymbolDrawing {
  const down = Math.max(sides.left?.length ?? 0, sides.right?.length ?? 0);
  const across = Math.max(sides.top?.length ?? 0, sides.bottom?.length ?? 0);
  const width = even(Math.max(w, (across + 1) * PITCH_U));
  const height = even(Math.max(h, (down + 1) * PITCH_U));
  const body: Primitive = { t: 'rect', x: 0, y: 0, w: width, h: height, r: 4, fill: 'paper', ink, lw: ink === 'vehicle' ? 1 : LINE_U };
  return { w: width, h: height, primitives: [body, ...more], pads: edgePads(sides, width, height) };
}

/** Pads of a box of that size: each side's terminals centred at pitch 20. */
export function edgePads(sides: ModuleSides, w: number, h: number): Record<string, Pad> {
  const pads: Record<string, Pad> = {};
  const place = (side: Side, ids: SideIds | undefined): void => {
    if (!ids) return;
    const along = side === 'left' || side === 'right' ? h : w;
    const first = (along - (ids.length - 1) * PITCH_U) / 2;
    ids.forEach((id, i) => {
      if (id === null) return;
      const at = first + i * PITCH_U;
      if (side === 'left') pads[id] = { x: 0, y: at, side };
      else if (side === 'right') pads[id] = { x: w, y: at, side };
      else if (side === 'top') pads[id] = { x: at, y: 0, side };
      else pads[id] = { x: at, y: h, side };
    });
  };
  place('left', sides.left);
  place('right', sides.right);
  place('top', sides.top);
  place('bottom', sides.bottom);
  return pads;
}

/**
 * A part that sits in a wire: 60 x 20, one pad at the left, one at the right, with the leads up to the glyph drawn.
 * @param glyph primitives centred on (30, 10)
 * @param half half the glyph's length along x, where the leads end
 */
export function inlineBody(left: string, right: string, glyph: readonly Primitive[], half: number): SymbolDrawing {
  const { w, h, y } = INLINE;
  const leads = strokes([
    [0, y, w / 2 - half, y],
    [w / 2 + half, y, w, y],
  ]);
  return { w, h, primitives: [...leads, ...glyph], pads: { [left]: { x: 0, y, side: 'left' }, [right]: { x: w, y, side: 'right' } } };
}

/** Fuse: rectangle with the conductor through it. 32 x 10. */
export function fuseGlyph(cx: number, cy: number): Primitive[] {
  return [box(cx, cy, 32, 10), stroke([cx - 16, cy, cx + 16, cy])];
}

/** Small flag in the fuse body's colour, below a glyph centred on cx, cy. */
export function fuseFlag(cx: number, cy: number, ratingA: number): Primitive {
  return { t: 'rect', x: cx - 7, y: cy + 8, w: 14, h: 5, r: 1, fill: `fuse-${ratingA}`, ink: 'ink', lw: 0.5 };
}

/** Resistor: plain rectangle. 32 x 10. */
export function resistorGlyph(cx: number, cy: number): Primitive[] {
  return [box(cx, cy, 32, 10)];
}

/** Capacitor: two plates 6 apart, leads end 3 from the centre; polarised has its plus at the left plate. */
export function capacitorGlyph(cx: number, cy: number, polarised: boolean): Primitive[] {
  const plates = strokes([
    [cx - 3, cy - 9, cx - 3, cy + 9],
    [cx + 3, cy - 9, cx + 3, cy + 9],
  ]);
  return polarised ? [...plates, ...plus(cx - 10, cy - 6)] : plates;
}

/** Small plus sign. */
export function plus(x: number, y: number, arm = 3, ink: Ink = 'ink'): Primitive[] {
  return strokes(
    [
      [x - arm, y, x + arm, y],
      [x, y - arm, x, y + arm],
    ],
    ink,
    1.2,
  );
}

/** Diode, anode at the left; the conductor passes through. 16 long. */
export function diodeGlyph(cx: number, cy: number): Primitive[] {
  return [triangle(cx, cy, 1), stroke([cx - 8, cy, cx + 8, cy]), stroke([cx + 8, cy - 7, cx + 8, cy + 7])];
}

/** Schottky diode: bar with two hooks. 16 long. */
export function schottkyGlyph(cx: number, cy: number): Primitive[] {
  const bar = stroke([cx + 5, cy - 4, cx + 5, cy - 7, cx + 8, cy - 7, cx + 8, cy + 7, cx + 11, cy + 7, cx + 11, cy + 4]);
  return [triangle(cx, cy, 1), stroke([cx - 8, cy, cx + 8, cy]), bar];
}

/** Breakdown diode, cathode (the bar) at the left; bidirectional: two triangles on one bar. 16 or 32 long. */
export function zenerGlyph(cx: number, cy: number, bidirectional = false): Primitive[] {
  if (bidirectional) {
    const bar = stroke([cx + 4, cy - 7, cx, cy - 7, cx, cy + 7, cx - 4, cy + 7]);
    return [triangle(cx + 8, cy, -1), triangle(cx - 8, cy, 1), stroke([cx - 16, cy, cx + 16, cy]), bar];
  }
  const bar = stroke([cx - 8, cy + 7, cx - 8, cy - 7, cx - 4, cy - 7]);
  return [triangle(cx, cy, -1), stroke([cx - 8, cy, cx + 8, cy]), bar];
}

/** Light-emitting diode, anode at the left, two arrows leaving. 16 long. */
export function ledGlyph(cx: number, cy: number): Primitive[] {
  return [...diodeGlyph(cx, cy), ...rays(cx, cy - 6.5)];
}

/** Two small arrows up and to the right, from about x, y. */
export function rays(x: number, y: number): Primitive[] {
  return [0, 6].flatMap((d) => [
    stroke([x + d, y, x + d + 4, y - 4], 'ink', 1),
    { t: 'poly', pts: [x + d + 5.5, y - 5.5, x + d + 2, y - 4.3, x + d + 4.3, y - 2], fill: 'ink' } as const,
  ]);
}

/** Inductor: four half circles. 32 long. */
export function inductorGlyph(cx: number, cy: number): Primitive[] {
  return [-12, -4, 4, 12].map((dx) => ({ t: 'arc', x: cx + dx, y: cy, r: 4, from: 180, to: 360, ink: 'ink', w: LINE_U }) as const);
}

/** Two windings facing each other above and below cy, with the core between. 32 long, 16 high. */
export function transformerGlyph(cx: number, cy: number): Primitive[] {
  const winding = (y: number, from: number, to: number): Primitive[] =>
    [-12, -4, 4, 12].map((dx) => ({ t: 'arc', x: cx + dx, y, r: 4, from, to, ink: 'ink', w: LINE_U }) as const);
  return [...winding(cy - 8, 0, 180), ...winding(cy + 8, 180, 360), stroke([cx - 16, cy, cx + 16, cy])];
}

/** Relay coil: rectangle, leads at top and bottom. 28 x 14. */
export function coilGlyph(cx: number, cy: number): Primitive[] {
  return [box(cx, cy, 28, 14)];
}

/** Make contact, open: hinge at the left; the lead that ends at cx + 12 is the fixed contact. 24 long. */
export function contactGlyph(cx: number, cy: number): Primitive[] {
  return [stroke([cx - 12, cy, cx + 10, cy - 6])];
}

/** Changeover contact: common at the left, break contact above, make contact below at +-10, both ending at cx + 12. */
export function changeoverGlyph(cx: number, cy: number): Primitive[] {
  return [stroke([cx - 12, cy, cx + 9, cy - 9]), stroke([cx + 12, cy - 10, cx + 6, cy - 10]), stroke([cx + 12, cy + 10, cx + 6, cy + 10])];
}

/** Hand-operated switch that stays: make contact with a turned-key actuator above. 24 long. */
export function switchGlyph(cx: number, cy: number): Primitive[] {
  return [...contactGlyph(cx, cy), actuator(cx, cy), stroke([cx - 5, cy - 10, cx + 5, cy - 10, cx + 5, cy - 7])];
}

/** Push button: make contact with a pressed actuator above. 24 long. */
export function pushButtonGlyph(cx: number, cy: number): Primitive[] {
  return [...contactGlyph(cx, cy), actuator(cx, cy), stroke([cx - 5, cy - 7, cx - 5, cy - 10, cx + 5, cy - 10, cx + 5, cy - 7])];
}

/** Battery cells, plus (long plate) at the left. 16 long. */
export function batteryGlyph(cx: number, cy: number, ink: Ink = 'ink'): Primitive[] {
  const cell = (x: number): Primitive[] => [stroke([x, cy - 9, x, cy + 9], ink), stroke([x + 5, cy - 4, x + 5, cy + 4], ink, 3)];
  return [...cell(cx - 8), ...cell(cx + 3)];
}

/** Frame or chassis: bar with three strokes, hanging from (cx, y). 28 wide, 16 high. */
export function chassisGlyph(cx: number, y: number, ink: Ink = 'ink'): Primitive[] {
  const hatch = [-13, 0, 13].map((dx) => [cx + dx, y + 8, cx + dx - 6, y + 16]);
  return strokes([[cx, y, cx, y + 8], [cx - 14, y + 8, cx + 14, y + 8], ...hatch], ink);
}

/** Filled disc with a short word in it: terminal number of a feed. */
export function disc(cx: number, cy: number, text: string, r = 11): Primitive[] {
  return [{ t: 'circle', x: cx, y: cy, r, fill: 'ink' }, mark(cx, cy, text, text.length > 2 ? 9 : 11, 'paper', 'middle', true)];
}

const even = (u: number): number => Math.ceil(u / 20) * 20;

function box(cx: number, cy: number, w: number, h: number): Primitive {
  return { t: 'rect', x: cx - w / 2, y: cy - h / 2, w, h, fill: 'paper', ink: 'ink', lw: LINE_U };
}

/** Triangle 16 long pointing along x by `dir`. */
function triangle(cx: number, cy: number, dir: 1 | -1): Primitive {
  return { t: 'poly', pts: [cx - 8 * dir, cy - 7, cx - 8 * dir, cy + 7, cx + 8 * dir, cy], fill: 'paper', ink: 'ink', lw: LINE_U };
}

function actuator(cx: number, cy: number): Primitive {
  return { t: 'line', pts: [cx, cy - 3, cx, cy - 10], ink: 'ink', w: 1, dash: [2, 1.5] };
}
