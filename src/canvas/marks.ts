import type { Primitive } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';
import type { Finding, Level } from '../rules/types.ts';
import type { Scene } from '../scene/types.ts';

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

/** Shape of each level with its letter, centred on x, y: octagon hazard, triangle fault, disc advice. */
export function markShape(level: Level, x: number, y: number, text: string): Primitive[] {
  const r = 9;
  const letter: Primitive = {
    t: 'text',
    x,
    y: y + (level === 'fault' ? 5 : 3.7),
    text,
    size: level === 'fault' ? 9 : 10,
    ink: 'paper',
    bold: true,
    anchor: 'middle',
  };
  if (level === 'advice') return [{ t: 'circle', x, y, r, fill: 'advice', ink: 'paper', lw: 1.5 }, letter];
  if (level === 'fault')
    return [{ t: 'poly', pts: [x, y - r - 1, x + r + 2, y + r - 0.5, x - r - 2, y + r - 0.5], fill: 'fault', ink: 'paper', lw: 1.5 }, letter];
  const pts: number[] = [];
  for (let i = 0; i < 8; i++) {
    const a = ((i + 0.5) * Math.PI) / 4;
    pts.push(x + (r + 1) * Math.cos(a), y + (r + 1) * Math.sin(a));
  }
  return [{ t: 'poly', pts, fill: 'hazard', ink: 'paper', lw: 1.5 }, letter];
}

/** Letter in a mark: the number of findings when there are several. */
export function markText(mark: Mark): string {
  return mark.count > 1 ? String(Math.min(9, mark.count)) : mark.level === 'advice' ? 'i' : '!';
}

/** Marks at the upper right corner of parts and beside the tags of wires. */
export function markPrimitives(marks: readonly Mark[], scene: Scene, hidden: ReadonlySet<Id>): Primitive[] {
  return marks.flatMap((mark) => {
    if (hidden.has(mark.id)) return [];
    if (mark.kind === 'part') {
      const part = scene.parts.get(mark.id);
      if (!part) return [];
      // On a part that sits in a wire the corner is where the wire leaves: stand off it.
      const { x, y, w, h } = part.box;
      const low = h <= 30;
      return markShape(mark.level, x + w - (low ? 4 : 0), y - (low ? 6 : 0), markText(mark));
    }
    const wire = scene.wires.get(mark.id);
    return wire ? markShape(mark.level, wire.tagAt.x + 22, wire.tagAt.y, markText(mark)) : [];
  });
}
