import { wiresOfPart } from './connect.ts';
import { Draft, patched } from './draft.ts';
import { count, fresh, linked, type NewPart, nameOf, snap, type WireExtras } from './rows.ts';
import type { Edit, Id, Part, Plan, Value, Values } from './types.ts';

/** Parts and wires that come as one. A wire's part is a key of the fragment, else the id of a part on the plan. */
export interface Fragment {
  readonly parts: readonly (NewPart & { readonly key: string })[];
  readonly wires: readonly { readonly from: readonly [string, string]; readonly to: readonly [string, string]; readonly extras?: WireExtras }[];
}

/** One new part. */
export function addPart(plan: Plan, part: NewPart, label = `Add ${nameOf(fresh('', part))}`): { edit: Edit; id: Id } {
  const draft = new Draft(plan);
  const id = draft.newId('p');
  draft.setPart(fresh(id, part));
  return { edit: draft.edit('part.add', label), id };
}

/** Many parts and their wires in one edit: sets, paste, the demo. `ids` by fragment key, `wires` in fragment order. */
export function addParts(
  plan: Plan,
  fragment: Fragment,
  intent = 'part.add',
  label = `Add ${count(fragment.parts.length, 'part')}`,
): { edit: Edit; ids: Readonly<Record<string, Id>>; wires: readonly Id[] } {
  const draft = new Draft(plan);
  const ids: Record<string, Id> = {};
  for (const part of fragment.parts) {
    const id = draft.newId('p');
    ids[part.key] = id;
    draft.setPart(fresh(id, part));
  }
  const end = ([key, terminal]: readonly [string, string]) => ({ part: ids[key] ?? key, terminal });
  const wires = fragment.wires.map((w) => {
    const id = draft.newId('w');
    draft.setWire(linked(id, end(w.from), end(w.to), w.extras));
    return id;
  });
  return { edit: draft.edit(intent, label), ids, wires };
}

/** Where a part goes: `zone` absent = stays in its zone. */
export interface Move {
  readonly id: Id;
  readonly zone?: Id;
  readonly x: number;
  readonly y: number;
}

export function movePart(plan: Plan, id: Id, to: Omit<Move, 'id'>): Edit {
  return moveParts(plan, [{ id, ...to }]);
}

/** Moves parts to new places; all are pushed back together when one would leave its zone at the top or left. */
export function moveParts(plan: Plan, moves: readonly Move[]): Edit {
  const draft = new Draft(plan);
  const pushX = Math.max(0, ...moves.map((m) => -snap(m.x)));
  const pushY = Math.max(0, ...moves.map((m) => -snap(m.y)));
  for (const move of moves) {
    const part = plan.parts[move.id];
    if (part) draft.setPart({ ...part, zone: move.zone ?? part.zone, x: snap(move.x) + pushX, y: snap(move.y) + pushY });
  }
  return draft.edit(
    'part.move',
    `Move ${these(
      plan,
      moves.map((m) => m.id),
    )}`,
  );
}

/** Turns parts by quarter turns clockwise, each about its own top left corner. */
export function turnParts(plan: Plan, ids: readonly Id[], quarters = 1): Edit {
  const draft = new Draft(plan);
  for (const id of ids) {
    const part = plan.parts[id];
    if (part) draft.setPart({ ...part, turn: ((((part.turn + quarters) % 4) + 4) % 4) as Part['turn'] });
  }
  return draft.edit('part.turn', `Turn ${these(plan, ids)}`);
}

/** Removes parts, the wires that end on them, and further wires. */
export function removeItems(plan: Plan, parts: readonly Id[], wires: readonly Id[] = []): Edit {
  const draft = new Draft(plan);
  const goneParts = parts.filter((id) => plan.parts[id]);
  const goneWires = wires.filter((id) => plan.wires[id]);
  for (const id of goneParts) {
    draft.removePart(id);
    for (const wire of wiresOfPart(plan, id)) draft.removeWire(wire.id);
  }
  for (const id of goneWires) draft.removeWire(id);
  const what = goneParts.length > 0 ? these(plan, goneParts) : count(goneWires.length, 'wire');
  return draft.edit(goneParts.length > 0 ? 'part.remove' : 'wire.remove', `Remove ${what}`);
}

/** Types one setting, or frees it (`undefined`) back to automatic or default. */
export function setSetting(plan: Plan, id: Id, key: string, value: Value | undefined): Edit {
  return setSettings(plan, id, { [key]: value });
}

/** Types or frees several settings at once, e.g. a variant from the shelf. */
export function setSettings(plan: Plan, id: Id, patch: Readonly<Record<string, Value | undefined>>): Edit {
  const draft = new Draft(plan);
  const part = plan.parts[id];
  if (part) draft.setPart({ ...part, settings: patched<Values>(part.settings, patch) });
  return draft.edit('setting.set', `Change ${part ? nameOf(part) : id}`);
}

/** Gives a part the person's own name; an empty one goes back to the kind's title. */
export function renamePart(plan: Plan, id: Id, name: string): Edit {
  const trimmed = name.trim();
  return setPart(plan, id, { name: trimmed === '' ? undefined : trimmed }, 'part.rename', 'Rename');
}

/** Changes what a part carries besides place and settings; `undefined` removes the key. */
export function setPart(
  plan: Plan,
  id: Id,
  patch: { readonly [K in 'name' | 'note' | 'fitted' | 'owner']?: Part[K] | undefined },
  intent = 'part.set',
  verb = 'Change',
): Edit {
  const draft = new Draft(plan);
  const part = plan.parts[id];
  if (part) draft.setPart(patched<Part>(part, patch));
  return draft.edit(intent, `${verb} ${part ? nameOf(part) : id}`);
}

/** "Hold relay", "3 parts". */
export function these(plan: Plan, ids: readonly Id[]): string {
  const only = ids.length === 1 ? plan.parts[ids[0] ?? ''] : undefined;
  return only ? nameOf(only) : count(ids.length, 'part');
}
