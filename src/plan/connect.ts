import { gather } from './gather.ts';
import type { End, Id, Plan, Wire } from './types.ts';

export interface WireIndex {
  /** Wires by `part.terminal`. */
  readonly byTerminal: ReadonlyMap<string, readonly Wire[]>;
  readonly byPart: ReadonlyMap<Id, readonly Wire[]>;
}

const cache = new WeakMap<Plan['wires'], WireIndex>();
const NONE: readonly Wire[] = [];

/** Key of a terminal in every index and reading: `part.terminal`. */
export function terminalKey(part: Id, terminal: string): string {
  return `${part}.${terminal}`;
}
export const endKey = (end: End): string => terminalKey(end.part, end.terminal);

/** Which wires end where; worked out once for each wires table. */
export function wiresAt(plan: Plan): WireIndex {
  let index = cache.get(plan.wires);
  if (!index) {
    const byTerminal = new Map<string, Wire[]>();
    const byPart = new Map<Id, Wire[]>();
    for (const wire of Object.values(plan.wires)) {
      gather(byTerminal, endKey(wire.from), wire);
      gather(byTerminal, endKey(wire.to), wire);
      gather(byPart, wire.from.part, wire);
      if (wire.to.part !== wire.from.part) gather(byPart, wire.to.part, wire);
    }
    index = { byTerminal, byPart };
    cache.set(plan.wires, index);
  }
  return index;
}

/** Wires on one terminal, in the order they were drawn. */
export function wiresOn(plan: Plan, part: Id, terminal: string): readonly Wire[] {
  return wiresAt(plan).byTerminal.get(terminalKey(part, terminal)) ?? NONE;
}

/** Wires that end anywhere on a part. */
export function wiresOfPart(plan: Plan, part: Id): readonly Wire[] {
  return wiresAt(plan).byPart.get(part) ?? NONE;
}
