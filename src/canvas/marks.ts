import { overlaps } from '../drawing/box.ts';
import type { Point, Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { Finding, Level } from '../rules/types.ts';
import type { PlacedPart, Scene } from '../scene/types.ts';

const RANK: Readonly<Record<Level, number>> = { hazard: 3, fault: 2, advice: 1 };

export interface Mark {
  readonly id: Id;
  readonly kind: 'part' | 'wire';
  readonly level: Level;
  /** Findings on this subject. */
  readonly count: number;
}

/** One mark per part and wire that has findings: the worst level and how many there are. */
export function marksOf(findings: readonly Finding[]): readonly Mark[] {
  const marks = new Map<string, Mark>();
  for (const { subject, level } of findings) {
    if (subject.kind === 'plan') continue;
    const key = `${subject.kind}:${subject.id}`;
    const old = marks.get(key);
    marks.set(key, {
      id: subject.id,
      kind: subject.kind,
      level: old && RANK[old.level] >= RANK[level] ? old.level : level,
      count: (old?.count ?? 0) + 1,
    });
  }
  return [...marks.values()];
}

/** Outer and inner outline of the shapes, about their middle, as in the ledger: octagon hazard, triangle fault. */
const OUTLINE = {
  hazard: [
    [-3.7, -9, 3.7, -9, 9, -3.7, 9, 3.7, 3.7, 9, -3.7, 9, -9, 3.7, -9, -3.7],
    [-1.6, -3.9, -3.9, -1.6, -3.9, 1.6, -1.6, 3.9, 1.6, 3.9, 3.9, 1.6, 3.9, -1.6, 1.6, -3.9],
  ],
  fault: [
    [0, -8.8, 9.6, 8.4, -9.6, 8.4],
    [0, -1.4, -3.1, 4.4, 3.1, 4.4],
  ],
} as const;

/**
 * Shape of each level, centred on x, y: octagon hazard, triangle fault, disc advice, each with a hole of its own kind;
 * in place of the hole the number of findings when there are several.
 */
export function markShape(level: Level, x: number, y: number, count: number): Primitive[] {
  const number: Primitive = {
    t: 'text',
    x,
    y: y + (level === 'fault' ? 6 : 3.7),
    text: String(Math.min(9, count)),
    size: 10,
    ink: 'paper',
    bold: true,
    anchor: 'middle',
  };
  if (level === 'advice') {
    const disc: Primitive = { t: 'circle', x, y, r: 9, fill: 'advice', ink: 'paper', lw: 1 };
    return [disc, count > 1 ? number : { t: 'circle', x, y, r: 3.4, fill: 'paper' }];
  }
  const at = (pts: readonly number[]) => pts.map((v, i) => v + (i % 2 === 0 ? x : y));
  const [outer, hole] = OUTLINE[level];
  return [{ t: 'poly', pts: at(outer), fill: level, ink: 'paper', lw: 1 }, count > 1 ? number : { t: 'poly', pts: at(hole), fill: 'paper' }];
}

/** Marks at a corner of parts, the upper right one by choice, and beside the tags of wires. */
export function markPrimitives(marks: readonly Mark[], scene: Scene, hidden: ReadonlySet<Id>): Primitive[] {
  return marks.flatMap((mark) => {
    if (hidden.has(mark.id)) return [];
    if (mark.kind === 'part') {
      const part = scene.parts.get(mark.id);
      if (!part) return [];
      const at = markPlace(part);
      return markShape(mark.level, at.x, at.y, mark.count);
    }
    const wire = scene.wires.get(mark.id);
    return wire ? markShape(mark.level, wire.tagAt.x + 22, wire.tagAt.y, mark.count) : [];
  });
}

/** Half the width of a mark, u. */
const REACH_U = 9;

/** The first corner of a part at which a mark covers nothing of its label. */
export function markPlace({ box, labels }: Pick<PlacedPart, 'box' | 'labels'>): Point {
  const { x, y, w, h } = box;
  // On a part that sits in a wire the corner is where the wire leaves: stand off it.
  const [inward, off] = h <= 30 ? [4, 6] : [0, 0];
  const corners = [
    { x: x + w - inward, y: y - off },
    { x: x + w - inward, y: y + h + off },
    { x: x + inward, y: y - off },
    { x: x + inward, y: y + h + off },
  ] as const;
  const isFree = (at: Point): boolean => !labels.some((l) => overlaps(l, { x: at.x - REACH_U, y: at.y - REACH_U, w: 2 * REACH_U, h: 2 * REACH_U }));
  return corners.find(isFree) ?? corners[0];
}
