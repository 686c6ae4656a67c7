import { alongX, crossings } from '../drawing/crossings.ts';
import type { Point } from '../drawing/types.ts';
import type { Id } from '../plan/types.ts';

/** Where a wire passes over others, and over which: two lists of one length. */
export interface Over {
  readonly at: readonly Point[];
  readonly under: readonly Id[];
}
export type PassesOver = ReadonlyMap<Id, Over>;
/** Wires in drawing order with the ways they run on. */
export type Lines = ReadonlyMap<Id, readonly number[]>;

/** Up to this share of new ways it pays to keep what is known of the others. */
const FEW = 0.25;

/**
 * Where each wire passes over earlier ones. With what was known of the lines before, only crossings in which a wire with
 * another way takes part are looked for; the answer is the same.
 */
export function passesOver(lines: Lines, before?: { readonly lines: Lines; readonly over: PassesOver }): PassesOver {
  const ids = [...lines.keys()];
  const ways = [...lines.values()];
  const isKept = (id: Id): boolean => before?.lines.get(id) === lines.get(id);
  const fresh = new Set(ids.flatMap((id, n) => (isKept(id) ? [] : [n])));
  if (!before || fresh.size > FEW * ids.length || !sameOrder(before.lines, ids, isKept)) return new Map(listed(ids, crossings(ways)));
  const gone = new Set([...before.lines.keys()].filter((id) => !isKept(id)));
  const found = new Map(listed(ids, crossings(ways, fresh)));
  for (const id of ids) {
    const was = isKept(id) ? before.over.get(id) : undefined;
    if (was) found.set(id, merged(was, gone, found.get(id) as Over));
  }
  return found;
}

function listed(ids: readonly Id[], found: ReturnType<typeof crossings>): [Id, Over][] {
  return ids.map((id, n) => {
    const list = found[n] ?? [];
    return [id, { at: list.map(({ x, y }) => ({ x, y })), under: list.map((c) => ids[c.under] as Id) }];
  });
}

/** Wires that keep their way lie over one another as they did? */
function sameOrder(before: Lines, ids: readonly Id[], isKept: (id: Id) => boolean): boolean {
  const were = [...before.keys()].filter(isKept);
  const are = ids.filter(isKept);
  return were.length === are.length && were.every((id, i) => id === are[i]);
}

function merged(was: Over, gone: ReadonlySet<Id>, more: Over): Over {
  if (more.at.length === 0 && !was.under.some((id) => gone.has(id))) return was;
  const all = [was, more].flatMap((o) => o.at.map((at, i) => ({ x: at.x, y: at.y, under: o.under[i] as Id })).filter((c) => o === more || !gone.has(c.under)));
  all.sort(alongX);
  return { at: all.map(({ x, y }) => ({ x, y })), under: all.map((c) => c.under) };
}
