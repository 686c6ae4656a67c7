import { Draft, patched } from './draft.ts';
import { REVISIONS } from './limits.ts';
import { itemNumbers, wireNumbers } from './numbers.ts';
import { count } from './rows.ts';
import type { Edit, Gone, Id, Part, Plan, Revision, Was, Wire } from './types.ts';

export type Revised = { readonly ok: true; readonly edit: Edit; readonly number: number } | { readonly ok: false; readonly reason: string };

/** Revisions by number, the first one first. */
export function revisionsOf(plan: Plan): readonly Revision[] {
  return Object.values(plan.revisions ?? {}).sort((a, b) => a.number - b.number);
}

/**
 * Keeps the build as it stands under the next revision number. From then on the numbers of its wires and parts are fixed,
 * those of what was removed too: a revised sheet never calls two things by one name.
 * @param filled the same plan with its automatic values: a revision keeps what was printed
 * @param letterOf letter of a kind's item number
 * @returns the edit, or in plain words why there is no room for another revision
 */
export function makeRevision(
  plan: Plan,
  filled: Plan,
  letterOf: (kind: string) => string | null,
  { date, note }: { readonly date: string; readonly note: string },
): Revised {
  const made = revisionsOf(plan);
  if (made.length >= REVISIONS.most) return { ok: false, reason: `a plan has room for ${REVISIONS.most} revisions` };
  const number = (made.at(-1)?.number ?? 0) + 1;
  const draft = new Draft(plan);
  const parts = withItems(filled.parts, itemNumbers(plan, letterOf).standing);
  const wires = withNumbers(filled.wires, wireNumbers(plan).standing);
  for (const part of Object.values(plan.parts)) draft.setPart(patched<Part>(part, { item: parts[part.id]?.item }));
  for (const wire of Object.values(plan.wires)) if (wire.owner === 'build') draft.setWire(patched<Wire>(wire, { number: wires[wire.id]?.number }));
  const gone = fixed(plan, letterOf);
  if (gone) draft.setHead({ gone });
  const { vehicle, thresholds } = plan;
  const was: Was = { vehicle, thresholds, zones: filled.zones, runs: filled.runs, parts, wires };
  const revision: Revision = { id: `v${number}`, number, date, note: note.trim(), was };
  const letters = [...made, revision].reduce((sum, r) => sum + JSON.stringify(r).length, 0);
  if (letters > REVISIONS.letters) {
    const full = made.filter((r) => r.was).length;
    const room = `all revisions together would take ${(letters / 1e6).toFixed(1)} MB, and there is room for ${REVISIONS.letters / 1e6} MB`;
    return { ok: false, reason: full === 0 ? `${room}: this plan is too large to keep revisions of` : `${room}: let go of what an early one looked like` };
  }
  draft.setRevision(revision);
  return { ok: true, edit: draft.edit('revision.make', `Make revision ${number}`), number };
}

/** Lets go of how a revision looked, to make room; its number, date and note stay, and nothing else takes its number. */
export function thinRevision(plan: Plan, id: Id): Edit {
  const draft = new Draft(plan);
  const revision = plan.revisions?.[id];
  if (revision) draft.setRevision(patched<Revision>(revision, { was: undefined }));
  return draft.edit('revision.thin', `Let go of ${revision ? `what revision ${revision.number} looked like` : count(1, 'revision')}`);
}

function withItems(parts: Readonly<Record<Id, Part>>, items: ReadonlyMap<Id, number>): Readonly<Record<Id, Part>> {
  return Object.fromEntries(Object.entries(parts).map(([id, part]) => [id, patched<Part>(part, { item: items.get(id) })]));
}

function withNumbers(wires: Readonly<Record<Id, Wire>>, numbers: ReadonlyMap<Id, number>): Readonly<Record<Id, Wire>> {
  return Object.fromEntries(
    Object.entries(wires).map(([id, wire]) => [id, wire.owner === 'build' ? patched<Wire>(wire, { number: numbers.get(id) ?? wire.number }) : wire]),
  );
}

/** What was removed, each with the number it had. */
function fixed(plan: Plan, letterOf: (kind: string) => string | null): Gone | null {
  if (!plan.gone) return null;
  const wires = wireNumbers(plan).removed;
  const items = itemNumbers(plan, letterOf).removed;
  return {
    wires: Object.fromEntries(Object.entries(plan.gone.wires).map(([id, n]) => [id, wires.get(id) ?? n])),
    parts: Object.fromEntries(
      Object.entries(plan.gone.parts).map(([id, part]) => {
        const item = items.get(id) ?? part.item;
        return [id, { kind: part.kind, ...(item === undefined ? {} : { item }) }];
      }),
    ),
  };
}
