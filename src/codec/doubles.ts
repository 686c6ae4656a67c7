import type { PartKind } from '../parts/types.ts';
import { inOrder } from '../plan/ids.ts';
import { itemNumbers, wireNumbers } from '../plan/numbers.ts';
import type { Id, Part, Plan, Wire } from '../plan/types.ts';

/**
 * Two wires under one number, or two parts under one item number, can only come from a hand-written file. Such a file is
 * opened: refusing it would keep the whole plan away for the sake of a label. The one that was made first keeps the number,
 * the other gets the lowest one that no wire or part has or had, so nothing else is renamed; a note names both, because the
 * labels in the vehicle may say otherwise.
 */
export function withoutDoubles(plan: Plan, kinds: ReadonlyMap<string, PartKind>): { readonly plan: Plan; readonly notes: readonly string[] } {
  const letterOf = (kind: string): string | null => kinds.get(kind)?.letter ?? null;
  const notes: string[] = [];
  /** New numbers of those whose number was taken before; `label` names a number. */
  const renumbered = (rows: readonly { readonly id: Id; readonly number?: number | undefined }[], used: Set<number>, label: string): Map<Id, number> => {
    const first = new Map<number, Id>();
    const out = new Map<Id, number>();
    for (const { id, number } of rows) {
      if (number === undefined) continue;
      const holder = first.get(number);
      if (holder === undefined) {
        first.set(number, id);
        continue;
      }
      let free = 1;
      while (used.has(free)) free++;
      used.add(free);
      out.set(id, free);
      notes.push(`${label}${number} stood twice, at ${holder} and ${id}: ${id} is now ${label}${free}. Look at the labels in the vehicle.`);
    }
    return out;
  };

  const numbers = wireNumbers(plan);
  const wires = Object.values(inOrder(plan.wires));
  const newWires = renumbered(
    wires,
    new Set([...numbers.standing.values(), ...numbers.removed.values(), ...Object.keys(plan.given?.wires ?? {}).map(Number)]),
    'W',
  );

  const items = itemNumbers(plan, letterOf);
  const letterIn = (id: Id): string | null => letterOf((plan.parts[id]?.kind ?? plan.gone?.parts[id]?.kind) || '');
  const goneLetter = (id: Id): string | null => letterOf(plan.gone?.parts[id]?.kind ?? '');
  const parts = Object.values(inOrder(plan.parts));
  const newParts = new Map<Id, number>();
  for (const letter of new Set(parts.map((p) => letterOf(p.kind)))) {
    const used = new Set<number>(Object.keys(plan.given?.items[letter ?? ''] ?? {}).map(Number));
    for (const [id, n] of items.standing) if (letterIn(id) === letter) used.add(n);
    for (const [id, n] of items.removed) if (goneLetter(id) === letter) used.add(n);
    const mine = parts.filter((p) => letterOf(p.kind) === letter).map((p) => ({ id: p.id, number: p.item }));
    for (const [id, n] of renumbered(mine, used, letter ?? '')) newParts.set(id, n);
  }
  if (notes.length === 0) return { plan, notes };
  const given = <T extends Part | Wire>(rows: Readonly<Record<Id, T>>, to: ReadonlyMap<Id, number>, key: 'item' | 'number'): Record<Id, T> =>
    Object.fromEntries(Object.entries(rows).map(([id, row]) => [id, to.has(id) ? { ...row, [key]: to.get(id) } : row]));
  return { plan: { ...plan, wires: given(plan.wires, newWires, 'number'), parts: given(plan.parts, newParts, 'item') }, notes };
}
