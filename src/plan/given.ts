import { sameRow } from './equal.ts';
import { itemNumbers, wireNumbers } from './numbers.ts';
import type { Given, Id, Plan } from './types.ts';

type LetterOf = (kind: string) => string | null;
type Numbers = Record<string, Id>;

/**
 * The plan with every number on record that it and its other wirings have given; the same object when nothing is new.
 * Where two were given one number apart from each other, in two browsers say, each wiring keeps its own: labels may be
 * in the vehicle already.
 * @param letterOf letter of a kind's item number
 * @param others further wirings of the same plan
 */
export function counted(plan: Plan, letterOf: LetterOf, others: readonly Plan[] = []): Plan {
  const before = plan.given;
  const wires: Numbers = { ...before?.wires };
  const items: Record<string, Numbers> = Object.fromEntries(Object.entries(before?.items ?? {}).map(([letter, numbers]) => [letter, { ...numbers }]));
  const put = (into: Numbers, number: number | string, id: Id): void => {
    if (!Object.hasOwn(into, number)) into[number] = id;
  };
  const lot = (letter: string): Numbers => {
    items[letter] ??= {};
    return items[letter];
  };
  for (const one of [plan, ...others]) {
    const numbers = wireNumbers(one);
    for (const [id, n] of [...numbers.standing, ...numbers.removed]) put(wires, n, id);
    const parts = itemNumbers(one, letterOf);
    for (const [id, n] of parts.standing) put(lot(letterOf(one.parts[id]?.kind ?? '') ?? ''), n, id);
    for (const [id, n] of parts.removed) put(lot(letterOf(one.gone?.parts[id]?.kind ?? '') ?? ''), n, id);
    for (const [n, id] of Object.entries(one.given?.wires ?? {})) put(wires, n, id);
    for (const [letter, list] of Object.entries(one.given?.items ?? {})) for (const [n, id] of Object.entries(list)) put(lot(letter), n, id);
  }
  const given: Given = { wires, items, serial: before?.serial ?? 0 };
  return before && sameRow(before, given) ? plan : { ...plan, given };
}

/** The plan as it stands before another wiring is copied from it: numbers on record, and no serial given again by undo. */
export function readyToCopy(plan: Plan, letterOf: LetterOf): Plan {
  const { given, ...rest } = counted(plan, letterOf);
  if (!given || given.serial >= plan.nextSerial) return plan;
  return { ...rest, given: { ...given, serial: plan.nextSerial } };
}

/** After an edit: what is new in a plan with further wirings has its number for good. A plan alone is left as it is. */
export function keepCount(plan: Plan, before: Plan, letterOf: LetterOf): Plan {
  return plan.given === undefined || (plan.parts === before.parts && plan.wires === before.wires) ? plan : counted(plan, letterOf);
}

/** Has a number been given to another wire, in this or another wiring of the plan? */
export function isOthers(plan: Plan, wire: Id, number: number): boolean {
  const holder = plan.given?.wires[number];
  return holder !== undefined && holder !== wire;
}
