import { apply } from './apply.ts';
import { gather } from './gather.ts';
import { moveParts, these } from './partEdits.ts';
import { count, snap } from './rows.ts';
import type { Edit, Id, Part, Plan } from './types.ts';

/** Size of a drawn body, drawing units. */
export interface Size {
  readonly w: number;
  readonly h: number;
}
export type Sizes = ReadonlyMap<Id, Size>;

/** Which edges, or middles, come to lie on one line. */
export type Line = 'left' | 'right' | 'centre' | 'top' | 'bottom' | 'middle';
/** Sideways or up and down. */
export type Way = 'across' | 'down';

export type Arranged = { readonly ok: true; readonly edit: Edit } | { readonly ok: false; readonly reason: string };

const WORDS: Readonly<Record<Line, string>> = {
  left: 'left edges',
  right: 'right edges',
  centre: 'middles in a column',
  top: 'top edges',
  bottom: 'bottom edges',
  middle: 'middles in a row',
};

/**
 * Brings edges or middles of parts onto one line, to the nearest grid step. Heights are common to all zones; sideways,
 * parts are lined up within each zone, so that none changes its zone and with it the length of its wires. Refused where
 * parts would come to lie on each other.
 */
export function alignParts(plan: Plan, sizes: Sizes, line: Line): Arranged {
  const down = line === 'top' || line === 'bottom' || line === 'middle';
  const groups = groupsOf(plan, sizes, down);
  const share = line === 'left' || line === 'top' ? 0 : line === 'right' || line === 'bottom' ? 1 : 0.5;
  const moves = groups
    .filter((g) => g.length > 1)
    .flatMap((group) => {
      const from = Math.min(...group.map((b) => b.at));
      const to = Math.max(...group.map((b) => b.at + b.size));
      const target = from + share * (to - from);
      return group.map((b) => placed(b, down, target - share * b.size));
    });
  return arranged(plan, sizes, moves, 'part.align', `Line up ${WORDS[line]}`);
}

/** Leaves the first and last part where they are and makes the gaps between the bodies alike, to the nearest grid step. */
export function distributeParts(plan: Plan, sizes: Sizes, way: Way): Arranged {
  const down = way === 'down';
  const moves = groupsOf(plan, sizes, down)
    .filter((g) => g.length > 2)
    .flatMap((group) => {
      const sorted = [...group].sort((a, b) => a.at - b.at || a.at + a.size - b.at - b.size);
      const [first, last] = [sorted[0] as Lying, sorted.at(-1) as Lying];
      const bodies = sorted.reduce((sum, b) => sum + b.size, 0);
      const gap = (last.at + last.size - first.at - bodies) / (sorted.length - 1);
      let at = first.at;
      return sorted.map((b) => {
        const move = placed(b, down, b === last ? b.at : at);
        at += b.size + gap;
        return move;
      });
    });
  return arranged(plan, sizes, moves, 'part.distribute', down ? 'Space out up and down' : 'Space out sideways');
}

interface Lying {
  readonly part: Part;
  readonly at: number;
  readonly size: number;
}

function groupsOf(plan: Plan, sizes: Sizes, down: boolean): Lying[][] {
  const groups = new Map<string, Lying[]>();
  for (const [id, size] of sizes) {
    const part = plan.parts[id];
    if (!part) continue;
    gather(groups, down ? '' : part.zone, { part, at: down ? part.y : part.x, size: down ? size.h : size.w });
  }
  return [...groups.values()];
}

const placed = ({ part }: Lying, down: boolean, to: number) => ({ id: part.id, x: down ? part.x : snap(to), y: down ? snap(to) : part.y });

function arranged(plan: Plan, sizes: Sizes, moves: readonly { id: Id; x: number; y: number }[], intent: string, label: string): Arranged {
  if (moves.length === 0) return { ok: false, reason: 'Too few parts are chosen for that: sideways, they must lie in one zone' };
  const moved = moveParts(plan, moves);
  if (moved.changes.length === 0) return { ok: false, reason: 'They already lie like that' };
  const next = apply(plan, moved);
  const on = next.ok ? overlap(plan, next.plan, sizes) : null;
  if (on) return { ok: false, reason: `${these(plan, [on[0]])} would lie on ${these(plan, [on[1]])}: move one aside first` };
  return { ok: true, edit: { ...moved, intent, label: `${label} of ${count(moves.length, 'part')}` } };
}

/** Two of the parts that lie on each other now and did not before. */
function overlap(before: Plan, after: Plan, sizes: Sizes): readonly [Id, Id] | null {
  const ids = [...sizes.keys()];
  const on = (plan: Plan, a: Id, b: Id): boolean => {
    const [p, q, s, t] = [plan.parts[a], plan.parts[b], sizes.get(a), sizes.get(b)];
    return Boolean(p && q && s && t && p.zone === q.zone && p.x < q.x + t.w && q.x < p.x + s.w && p.y < q.y + t.h && q.y < p.y + s.h);
  };
  for (const [i, a] of ids.entries()) for (const b of ids.slice(i + 1)) if (on(after, a, b) && !on(before, a, b)) return [a, b];
  return null;
}
