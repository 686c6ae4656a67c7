import type { Facts } from '../analysis/factsTypes.ts';
import { Draft } from '../plan/draft.ts';
import type { Id } from '../plan/types.ts';
import { farEnd, movedEnd, onlyWire, railEnd } from './build.ts';
import { called } from './defineRule.ts';
import type { PinUse } from './pins.ts';
import { type Hop, netAt } from './trace.ts';
import type { Repair } from './types.ts';

/** Moves the far end of the last part on a way from a pin off its rail and on to the computer's 3.3 V; null when more hangs there. */
export function toRail3(facts: Facts, hops: readonly Hop[], use: PinUse): Repair | null {
  const last = hops[hops.length - 1];
  const view = last?.views[0];
  if (!last || !view || last.views.length !== 1) return null;
  const terminal = view.terminals.find((t) => netAt(facts, view, t.id) === last.to)?.id;
  return terminal === undefined ? null : endToRail3(facts, view.part.id, terminal, use);
}

/** Moves what a terminal is joined to: off its rail, on to the computer's 3.3 V. */
export function endToRail3(facts: Facts, part: Id, terminal: string, use: PinUse): Repair | null {
  const wire = onlyWire(facts.plan, part, terminal);
  const view = facts.parts.get(part);
  if (!wire || !view) return null;
  return {
    title: `Join ${called(view)} to 3.3 V instead`,
    safe: true,
    edit: (plan) => {
      const row = plan.wires[wire.id];
      const rail = railEnd(plan, use.computer.part.id, '3V3', use.cell.pin);
      if (!row || !rail || rail.part === part) return null;
      const draft = new Draft(plan);
      draft.setWire(movedEnd(row, farEnd(row, part), rail));
      return draft.edit('repair.apply', 'Join to 3.3 V');
    },
  };
}
