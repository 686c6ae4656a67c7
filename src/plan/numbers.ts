import { compareIds } from './ids.ts';
import type { Id, Part, Plan } from './types.ts';

/** Something that carries a number, or did before it was removed. */
interface Bearer {
  readonly id: Id;
  /** Typed or fixed; absent = next free one in the order of making. */
  readonly number?: number | undefined;
}

/** Ids by numbers that are spent. */
type Spent = Readonly<Record<string, Id>>;
const NOTHING: Spent = {};

/**
 * Numbers 1, 2, 3 ... in the order of making, round the fixed ones. What was removed keeps its number, so that nothing
 * behind it moves up and nothing new is called by an old name.
 * @param spent numbers given in any wiring of the plan: each stays with its id, and no other gets it
 * @param late come after all others: what they were called before went with their former kind
 */
function numbered(
  standing: readonly Bearer[],
  removed: readonly Bearer[],
  spent: Spent,
  late: ReadonlySet<Id>,
): { standing: Map<Id, number>; removed: Map<Id, number> } {
  const out = { standing: new Map<Id, number>(), removed: new Map<Id, number>() };
  const taken = new Set<number>();
  const open: { readonly id: Id; readonly into: Map<Id, number>; readonly late: boolean }[] = [];
  for (const { id, number } of removed) {
    if (number === undefined) open.push({ id, into: out.removed, late: false });
    else {
      out.removed.set(id, number);
      taken.add(number);
    }
  }
  for (const { id, number } of standing) {
    if (number === undefined) open.push({ id, into: out.standing, late: late.has(id) });
    else {
      out.standing.set(id, number);
      taken.add(number);
    }
  }
  const had = new Map<Id, number>();
  for (const [text, id] of Object.entries(spent)) {
    const number = Number(text);
    // Typed for another one since then: it has that number.
    if (!taken.has(number) && number < (had.get(id) ?? Number.POSITIVE_INFINITY)) had.set(id, number);
  }
  for (const text of Object.keys(spent)) taken.add(Number(text));
  let next = 1;
  for (const { id, into } of open.sort((a, b) => Number(a.late) - Number(b.late) || compareIds(a.id, b.id))) {
    const own = had.get(id);
    if (own === undefined) {
      while (taken.has(next)) next++;
      into.set(id, next++);
    } else into.set(id, own);
  }
  return out;
}

const NONE: ReadonlySet<Id> = new Set();

/** Number of every wire of the build, and of every one that was removed. Numbers of the vehicle's wires are left out of the count, not given. */
export function wireNumbers(plan: Plan): { readonly standing: ReadonlyMap<Id, number>; readonly removed: ReadonlyMap<Id, number> } {
  const wires = Object.values(plan.wires).filter((w) => w.owner === 'build' || w.number !== undefined);
  const gone = Object.entries(plan.gone?.wires ?? {}).map(([id, number]) => ({ id, number: number === 0 ? undefined : number }));
  return numbered(wires, gone, plan.given?.wires ?? NOTHING, NONE);
}

/**
 * Number of every part within its letter, and of every one that was removed.
 * @param letterOf letter of a kind, `F` of a fuse; null for a kind that is not known
 */
export function itemNumbers(
  plan: Plan,
  letterOf: (kind: string) => string | null,
): { readonly standing: ReadonlyMap<Id, number>; readonly removed: ReadonlyMap<Id, number> } {
  const lots = new Map<string, { readonly standing: Bearer[]; readonly removed: Bearer[]; readonly late: Set<Id> }>();
  const lot = (letter: string) => {
    const found = lots.get(letter) ?? { standing: [], removed: [], late: new Set<Id>() };
    lots.set(letter, found);
    return found;
  };
  for (const [id, { kind, item }] of Object.entries(plan.gone?.parts ?? {})) {
    const letter = letterOf(kind);
    const now = plan.parts[id];
    // Another kind with the same letter took its place and its number with it.
    if (letter === null || (now && letterOf(now.kind) === letter)) continue;
    lot(letter).removed.push({ id, number: item });
    if (now) lot(letterOf(now.kind) ?? '').late.add(id);
  }
  for (const part of Object.values(plan.parts)) {
    const mine = lot(letterOf(part.kind) ?? '');
    mine.standing.push({ id: part.id, number: mine.late.has(part.id) ? undefined : part.item });
  }
  const out = { standing: new Map<Id, number>(), removed: new Map<Id, number>() };
  for (const [letter, { standing, removed, late }] of lots) {
    const numbers = numbered(standing, removed, plan.given?.items[letter] ?? NOTHING, late);
    for (const [id, n] of numbers.standing) out.standing.set(id, n);
    for (const [id, n] of numbers.removed) out.removed.set(id, n);
  }
  return out;
}

/** What a removed part leaves behind. */
export function leftBy(part: Part): Pick<Part, 'kind' | 'item'> {
  return { kind: part.kind, ...(part.item === undefined ? {} : { item: part.item }) };
}
