import { wiresOfPart } from './connect.ts';
import { Draft } from './draft.ts';
import { nameOf } from './rows.ts';
import type { Edit, End, Id, Part, Plan, Values, Wire } from './types.ts';

/**
 * Turns an in-line part round: what was joined to one end is joined to the other. The body turns by half, so that the
 * wires stay where they lie on the drawing.
 */
export function swapEnds(plan: Plan, id: Id, a: string, b: string): Edit {
  const draft = new Draft(plan);
  const part = plan.parts[id];
  if (part) {
    draft.setPart({ ...part, turn: ((part.turn + 2) % 4) as Part['turn'] });
    const other: Readonly<Record<string, string>> = { [a]: b, [b]: a };
    for (const wire of wiresOfPart(plan, id)) draft.setWire(landed(wire, id, (t) => other[t] ?? t));
  }
  return draft.edit('part.swap', `Swap the ends of ${part ? nameOf(part) : id}`);
}

/**
 * Puts another kind in a part's place: same place, turn, name and note. Wires go to the terminals that `to` names; one
 * whose terminal has no place in `to` is removed, so a caller tells the person before. Not fitted any more: the new
 * thing has yet to be mounted.
 */
export function replacePart(plan: Plan, id: Id, kind: string, settings: Values, to: Readonly<Record<string, string>>): Edit {
  const draft = new Draft(plan);
  const part = plan.parts[id];
  if (!part) return draft.edit('part.replace', 'Replace');
  const { fitted: _fitted, item: _item, ...rest } = part;
  const next: Part = { ...rest, kind, settings };
  draft.setPart(next);
  for (const wire of wiresOfPart(plan, id)) {
    const mine = [wire.from, wire.to].filter((e) => e.part === id);
    const ends = mine.map((e) => to[e.terminal]);
    // A wire from the part to itself whose two ends would fall together is none any more.
    if (ends.includes(undefined) || (ends.length === 2 && ends[0] === ends[1])) draft.removeWire(wire.id);
    else draft.setWire(landed(wire, id, (t) => to[t] as string));
  }
  return draft.edit('part.replace', `Replace ${nameOf(part)} by ${kind.replaceAll('-', ' ')}`);
}

function landed(wire: Wire, part: Id, terminal: (was: string) => string): Wire {
  const end = (e: End): End => (e.part === part ? { part, terminal: terminal(e.terminal) } : e);
  return { ...wire, from: end(wire.from), to: end(wire.to) };
}
