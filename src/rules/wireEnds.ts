import type { Facts, PartView } from '../analysis/factsTypes.ts';
import type { WireReport } from '../analysis/types.ts';
import type { TerminalDef } from '../parts/types.ts';
import { gather } from '../plan/gather.ts';
import type { End, Id, Wire } from '../plan/types.ts';
import { once } from './once.ts';

/** What a wire ends at. */
export interface WireEnd {
  readonly view: PartView;
  readonly terminal: TerminalDef;
}

/** A wire with what it ends at; null for an end that is not there. */
export interface EndedWire {
  readonly wire: Wire;
  readonly from: WireEnd | null;
  readonly to: WireEnd | null;
}

/** Every wire of the plan with its two ends, in the order of the plan. */
export const endedWires = once((facts): readonly EndedWire[] =>
  Object.values(facts.plan.wires).map((wire) => ({ wire, from: endOf(facts, wire.from), to: endOf(facts, wire.to) })),
);

function endOf(facts: Facts, end: End): WireEnd | null {
  const view = facts.parts.get(end.part);
  const terminal = view?.terminals.find((t) => t.id === end.terminal);
  return view && terminal ? { view, terminal } : null;
}

/** What was worked out of every wire, in the order of the plan. */
export const wireReports = once((facts): readonly WireReport[] => Object.values(facts.analysis.wires));

const byGuard = once((facts): ReadonlyMap<Id, readonly WireReport[]> => {
  const map = new Map<Id, WireReport[]>();
  for (const w of wireReports(facts)) {
    const { from, to } = w.protection;
    if (from.byPart !== null) gather(map, from.byPart, w);
    if (to.byPart !== null && to.byPart !== from.byPart) gather(map, to.byPart, w);
  }
  return map;
});

/** The wires in which the current that can persist is bounded by a fuse or a limited source. */
export function guardedBy(facts: Facts, guard: Id): readonly WireReport[] {
  return byGuard(facts).get(guard) ?? [];
}
