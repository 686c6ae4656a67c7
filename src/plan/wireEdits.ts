import { Draft, patched } from './draft.ts';
import { fresh, linked, type NewPart, nameOf, type WireExtras } from './rows.ts';
import type { Edit, End, Id, Plan, Wire } from './types.ts';

export type WirePatch = { readonly [K in keyof Omit<Wire, 'id'>]?: Wire[K] | undefined };

/** Shortest piece that a cut leaves, m: enough to strip and crimp at both ends (common practice, no source). */
export const LEAST_PIECE_M = 0.05;

export function addWire(plan: Plan, from: End, to: End, extras: WireExtras = {}): { edit: Edit; id: Id } {
  const draft = new Draft(plan);
  const id = draft.newId('w');
  draft.setWire(linked(id, from, to, extras));
  return { edit: draft.edit('wire.add', 'Add wire'), id };
}

/** Types what is given; a value of `undefined` removes the key, back to automatic. */
export function setWire(plan: Plan, id: Id, patch: WirePatch): Edit {
  const draft = new Draft(plan);
  const wire = plan.wires[id];
  if (wire) draft.setWire(patched<Wire>(wire, patch));
  return draft.edit('wire.set', 'Change wire');
}

export interface Cut {
  readonly edit: Edit;
  /** The new part; '' when the wire is not on the plan. */
  readonly id: Id;
  /** The two pieces: old `from` to part, part to old `to`. */
  readonly wires: readonly [Id, Id];
}

/**
 * Cuts a part into a wire: the old wire goes, two new ones come with its size, colours, insulation and sleeve. The
 * number stays with the first piece. A typed length is divided `atM` metres from the `from` end (halved when absent);
 * a given `atM` types the first piece's length even when the whole was automatic.
 */
export function splitWire(plan: Plan, wireId: Id, part: NewPart, inTerminal: string, outTerminal: string, atM?: number): Cut {
  const draft = new Draft(plan);
  const wire = plan.wires[wireId];
  if (!wire) return { edit: draft.edit('wire.split', 'Cut into wire'), id: '', wires: ['', ''] };
  const { id, wires } = cutIn(draft, wire, part, inTerminal, outTerminal, atM);
  return { edit: draft.edit('wire.split', `Cut ${nameOf(part)} into wire`), id, wires };
}

/** Drops the end of a new wire on a wire: a splice is cut in and joined to `from`. `third` is the new wire. */
export function spliceWire(
  plan: Plan,
  wireId: Id,
  from: End,
  at: Pick<NewPart, 'zone' | 'x' | 'y'>,
  extras: WireExtras = {},
  atM?: number,
): Cut & { readonly third: Id } {
  const draft = new Draft(plan);
  const wire = plan.wires[wireId];
  if (!wire) return { edit: draft.edit('wire.splice', 'Splice'), id: '', wires: ['', ''], third: '' };
  const cut = cutIn(draft, wire, { kind: 'splice', owner: wire.owner, ...at }, 's', 's', atM);
  const third = draft.newId('w');
  draft.setWire(linked(third, from, { part: cut.id, terminal: 's' }, extras));
  return { edit: draft.edit('wire.splice', 'Splice'), ...cut, third };
}

function cutIn(draft: Draft, wire: Wire, part: NewPart, inTerminal: string, outTerminal: string, atM: number | undefined) {
  const id = draft.newId('p');
  draft.setPart(fresh(id, part));
  const kept = keptExtras(wire);
  const { number, ...second } = kept;
  const lengths = divided(wire.lengthM, atM);
  const first = draft.newId('w');
  const last = draft.newId('w');
  draft.removeWire(wire.id);
  draft.setWire(linked(first, wire.from, { part: id, terminal: inTerminal }, withLength(kept, lengths[0])));
  draft.setWire(linked(last, { part: id, terminal: outTerminal }, wire.to, withLength(second, lengths[1])));
  return { id, wires: [first, last] as const };
}

/** Bends and "fitted" belong to the wire as it was; length is divided apart. */
function keptExtras(wire: Wire): WireExtras {
  const { id: _id, from: _from, to: _to, bends: _bends, fitted: _fitted, lengthM: _lengthM, note: _note, ...kept } = wire;
  return kept;
}

function divided(lengthM: number | undefined, atM: number | undefined): readonly [number | undefined, number | undefined] {
  if (lengthM === undefined) return [atM === undefined ? undefined : Math.max(LEAST_PIECE_M, atM), undefined];
  const wanted = atM ?? lengthM / 2;
  const first = Math.max(LEAST_PIECE_M, Math.min(lengthM - LEAST_PIECE_M, wanted));
  return [round(first), round(Math.max(LEAST_PIECE_M, lengthM - first))];
}

const round = (m: number): number => Math.round(m * 1000) / 1000;

function withLength(extras: WireExtras, lengthM: number | undefined): WireExtras {
  return lengthM === undefined ? extras : { ...extras, lengthM };
}
