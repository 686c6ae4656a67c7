import { addParts } from './partEdits.ts';
import { count, snap, type WireExtras } from './rows.ts';
import type { Edit, End, Id, Part, Plan, Wire } from './types.ts';
import { zoneOrder } from './zoneEdits.ts';

/** Copied parts and the wires between them: a plain value, may go through the clipboard as JSON. */
export interface Clip {
  readonly format: 'dashloom-clip';
  readonly parts: readonly Part[];
  readonly wires: readonly Wire[];
  /** Names of the zones the parts lay in, to find the like ones in another plan. */
  readonly zones: Readonly<Record<Id, string>>;
}

/** The given parts and every wire that has both ends on them. */
export function copyItems(plan: Plan, ids: readonly Id[]): Clip {
  const chosen = new Set(ids.filter((id) => plan.parts[id]));
  const parts = [...chosen].map((id) => plan.parts[id] as Part);
  const wires = Object.values(plan.wires).filter((w) => chosen.has(w.from.part) && chosen.has(w.to.part));
  const zones = Object.fromEntries(parts.map((p) => [p.zone, plan.zones[p.zone]?.name ?? '']));
  return { format: 'dashloom-clip', parts, wires, zones };
}

/**
 * Lays a clip on a plan, shifted by drawing units; `ids` are the new parts in the clip's order. Numbers are not
 * copied (they are never used twice), nor is "fitted": the copy has yet to be made. A zone that this plan lacks is
 * replaced by the one of the same name, else by the leftmost.
 */
export function pasteClip(plan: Plan, clip: Clip, dx: number, dy: number): { edit: Edit; ids: readonly Id[]; wires: readonly Id[] } {
  const zoneFor = (id: Id): Id => {
    const name = clip.zones[id];
    if (plan.zones[id] && plan.zones[id].name === name) return id;
    return zoneOrder(plan).find((z) => plan.zones[z]?.name === name) ?? (plan.zones[id] ? id : (zoneOrder(plan)[0] ?? id));
  };
  const parts = clip.parts.map(({ id, fitted: _fitted, ...part }) => ({
    ...part,
    key: id,
    zone: zoneFor(part.zone),
    x: Math.max(0, snap(part.x + dx)),
    y: Math.max(0, snap(part.y + dy)),
  }));
  const wires = clip.wires.map((wire) => ({
    from: [wire.from.part, wire.from.terminal] as const,
    to: [wire.to.part, wire.to.terminal] as const,
    extras: pastedExtras(wire),
  }));
  const added = addParts(plan, { parts, wires }, 'part.paste', `Paste ${count(parts.length, 'part')}`);
  return { edit: added.edit, ids: clip.parts.map((p) => added.ids[p.id] as Id), wires: added.wires };
}

function pastedExtras(wire: Wire): WireExtras {
  const { id: _id, from: _from, to: _to, number: _number, fitted: _fitted, bends: _bends, ...extras } = wire;
  return extras;
}

/**
 * Lays a second of each given part on the plan, shifted by drawing units, with the wires between them and one more wire
 * to everything outside that the first is joined to. `left` are wires whose outer end takes no further one.
 */
export function duplicateWired(
  plan: Plan,
  ids: readonly Id[],
  dx: number,
  dy: number,
  takesMore: (end: End) => boolean,
): { edit: Edit; ids: readonly Id[]; left: readonly Id[] } {
  const clip = copyItems(plan, ids);
  const chosen = new Set(clip.parts.map((p) => p.id));
  const leading = Object.values(plan.wires).filter((w) => chosen.has(w.from.part) !== chosen.has(w.to.part));
  const joined = leading.filter((w) => takesMore(chosen.has(w.from.part) ? w.to : w.from));
  const { edit, ids: made } = pasteClip(plan, { ...clip, wires: [...clip.wires, ...joined] }, dx, dy);
  const left = leading.filter((w) => !joined.includes(w)).map((w) => w.id);
  return { edit: { ...edit, intent: 'part.duplicate', label: `Duplicate ${count(made.length, 'part')} with wires` }, ids: made, left };
}
