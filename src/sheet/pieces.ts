/** A stretch along one axis, drawing units. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * Where the pieces of a long drawing begin, so that each of the things along it is whole on at least one of them.
 * @param piece length that one piece shows, the same for all
 * @param most number of pieces
 * @param overlap length that neighbours show twice at least
 * @param things what must not be cut on every piece that shows it
 * @returns null when so many pieces do not do it
 */
export function wholeStarts(whole: Span, piece: number, most: number, overlap: number, things: readonly Span[]): number[] | null {
  const even = evenStarts(whole, piece, most);
  if (keepsWhole(even, piece, things)) return even;
  const last = whole.to - piece;
  const out = [whole.from];
  while (out.length < most) {
    const start = out.at(-1) as number;
    const end = start + piece;
    const cut = things.filter((t) => t.to > end).map((t) => t.from);
    // As far on as what the last piece cuts allows.
    const next = Math.min(end - overlap, last, ...cut);
    if (next <= start) return null;
    out.push(next);
    if (next === last) break;
  }
  return out.at(-1) === last && keepsWhole(out, piece, things) ? out : null;
}

/** Pieces that share the overlap evenly, so that the last one ends where the drawing ends; a single one stands in the middle. */
export function evenStarts(whole: Span, piece: number, n: number): number[] {
  const rest = whole.to - whole.from - piece;
  return n === 1 ? [whole.from + rest / 2] : Array.from({ length: n }, (_, i) => whole.from + (rest * i) / (n - 1));
}

function keepsWhole(starts: readonly number[], piece: number, things: readonly Span[]): boolean {
  return things.every((t) => starts.some((start) => t.from >= start && t.to <= start + piece));
}
