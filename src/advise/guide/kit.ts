import type { Facts, TerminalKey } from '../../analysis/factsTypes.ts';
import { partKind } from '../../parts/registry.ts';
import { partSets, setPartSettings } from '../../parts/sets.ts';
import { extentOf, freeSpot, isClear } from '../../parts/spot.ts';
import { apply, merge } from '../../plan/apply.ts';
import { addPart, addWire, addZone, setRun } from '../../plan/edits.ts';
import type { NewPart, WireExtras } from '../../plan/rows.ts';
import type { Edit, Id, Plan, ZoneKind } from '../../plan/types.ts';
import type { Offer } from './types.ts';

/** Where a new part should go when there is room: middle of nothing, just a wish in drawing units. */
type Place = readonly [x: number, y: number];

/** Gathers what a step adds, each piece where there is room, into one edit. */
export class Kit {
  plan: Plan;
  private edit: Edit | null = null;

  constructor(
    plan: Plan,
    private readonly facts: Facts,
  ) {
    this.plan = plan;
  }

  /** A new part; `wish` is taken when it is free. */
  part(part: Pick<NewPart, 'kind' | 'zone' | 'name' | 'settings' | 'owner' | 'turn'>, wish?: Place): Id {
    const { w, h } = extentOf({ kind: part.kind, x: 0, y: 0, turn: part.turn ?? 0, settings: part.settings ?? {} });
    const owner = part.owner ?? partKind(part.kind).owner ?? 'build';
    const made = addPart(this.plan, { ...part, owner, ...this.spot(part.zone, w, h, wish) });
    this.take(made.edit);
    return made.id;
  }

  /** One piece of a set, with the settings that the set gives it in this vehicle. */
  piece(set: string, key: string, zone: Id, wish?: Place): Id {
    const row = partSets.get(set)?.parts.find((p) => p.key === key);
    if (!row) throw new Error(`no piece "${key}" in set "${set}"`);
    const settings = setPartSettings(row, this.plan.vehicle.systemV);
    return this.part({ kind: row.kind, zone, settings, turn: row.turn ?? 0, ...(row.name === undefined ? {} : { name: row.name }) }, wish);
  }

  /** A wire between two terminals, unless they are joined already. */
  join(from: TerminalKey, to: TerminalKey, extras: WireExtras = {}): this {
    const [a, b] = [this.facts.netOf(from), this.facts.netOf(to)];
    if (a !== -1 && a === b) return this;
    this.take(addWire(this.plan, endOf(from), endOf(to), extras).edit);
    return this;
  }

  /** A new zone, with a run to another. */
  zone(name: string, kind: ZoneKind, from: Id, lengthM: number): Id {
    const made = addZone(this.plan, { name, kind });
    this.take(made.edit);
    this.take(setRun(this.plan, from, made.id, lengthM).edit);
    return made.id;
  }

  /** What was gathered, under the words the person reads; null when there is nothing to add. */
  offer(title: string): Offer | null {
    return this.edit && { title, edit: { ...this.edit, intent: 'guide.apply', label: title } };
  }

  take(edit: Edit): void {
    if (edit.changes.length === 0) return;
    const done = apply(this.plan, edit);
    if (!done.ok) throw new Error(`${edit.label}: ${done.reason}`);
    this.plan = done.plan;
    this.edit = this.edit ? merge(this.edit, edit) : edit;
  }

  private spot(zone: Id, w: number, h: number, wish?: Place): { readonly x: number; readonly y: number } {
    const taken = Object.values(this.plan.parts)
      .filter((p) => p.zone === zone)
      .map(extentOf);
    if (wish && isClear(taken, wish[0], wish[1], w, h)) return { x: wish[0], y: wish[1] };
    return freeSpot(taken, w, h);
  }
}

function endOf(key: TerminalKey): { readonly part: Id; readonly terminal: string } {
  const dot = key.indexOf('.');
  return { part: key.slice(0, dot), terminal: key.slice(dot + 1) };
}
