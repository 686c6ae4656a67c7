import { sameRow } from './equal.ts';
import { itemNumbers, wireNumbers } from './numbers.ts';
import type { Id, Plan, Wire } from './types.ts';

/**
 * Numbers that stand in two wirings of one plan for different things, as they are written on labels (`W3`, `F2`): given
 * apart from each other, in an edition that did not count over all wirings, or in two browsers.
 * @param letterOf letter of a kind's item number
 */
export function sharedNumbers(plan: Plan, other: Plan, letterOf: (kind: string) => string | null): string[] {
  const out: string[] = [];
  const ofWires = new Map([...wireNumbers(other).standing].map(([id, n]) => [n, id]));
  for (const [id, n] of wireNumbers(plan).standing) {
    const holder = ofWires.get(n);
    if (holder !== undefined && holder !== id && !isPiece(plan, id, other, holder)) out.push(`W${n}`);
  }
  const items = (one: Plan): [string, Id][] =>
    [...itemNumbers(one, letterOf).standing].map(([id, n]) => [`${letterOf(one.parts[id]?.kind ?? '') ?? ''}${n}`, id]);
  const ofParts = new Map(items(other));
  for (const [name, id] of items(plan)) if (ofParts.has(name) && ofParts.get(name) !== id) out.push(name);
  return out;
}

/** Was the one cut in its own wiring and is the other a piece of it? Then it is the same wire, up to the cut. */
function isPiece(plan: Plan, id: Id, other: Plan, holder: Id): boolean {
  if (other.gone?.wires[id] === undefined && plan.gone?.wires[holder] === undefined) return false;
  const ends = (wire: Wire | undefined) => (wire ? [wire.from, wire.to] : []);
  return ends(plan.wires[id]).some((end) => ends(other.wires[holder]).some((o) => sameRow(end, o)));
}
