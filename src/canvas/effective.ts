import type { Results } from '../advise/types.ts';
import { sameRow } from '../plan/equal.ts';
import type { Id, Part, Plan, Wire } from '../plan/types.ts';

/**
 * The plan as it is to be drawn: what the person has said, and what is automatic filled in from the last results, also
 * while newer results are still being worked out. Rows that come out alike keep their object from one call to the
 * next, so that the scene can tell what changed.
 */
export class EffectivePlan {
  private parts = new Map<Id, Part>();
  private wires = new Map<Id, Wire>();

  of(plan: Plan, results: Results | null): Plan {
    const parts = new Map<Id, Part>();
    const wires = new Map<Id, Wire>();
    for (const part of Object.values(plan.parts)) {
      const filled = results?.filled.parts[part.id];
      const fits = filled && filled.kind === part.kind;
      parts.set(part.id, kept(this.parts.get(part.id), fits ? { ...part, settings: { ...filled.settings, ...part.settings } } : part));
    }
    for (const wire of Object.values(plan.wires)) {
      const filled = results?.filled.wires[wire.id];
      wires.set(wire.id, kept(this.wires.get(wire.id), filled ? withLook(wire, filled) : wire));
    }
    this.parts = parts;
    this.wires = wires;
    return { ...plan, parts: Object.fromEntries(parts), wires: Object.fromEntries(wires) };
  }
}

function kept<T extends object>(before: T | undefined, now: T): T {
  return before && sameRow(before, now) ? before : now;
}

/** Only what the drawing shows; length and insulation are not drawn. */
function withLook(wire: Wire, filled: Wire): Wire {
  return {
    ...wire,
    ...(wire.number === undefined && filled.number !== undefined ? { number: filled.number } : {}),
    ...(wire.areaMm2 === undefined && filled.areaMm2 !== undefined ? { areaMm2: filled.areaMm2 } : {}),
    // A typed colour comes with its own stripe or none.
    ...(wire.colour === undefined && filled.colour !== undefined
      ? { colour: filled.colour, ...(wire.stripe === undefined && filled.stripe !== undefined ? { stripe: filled.stripe } : {}) }
      : {}),
  };
}
