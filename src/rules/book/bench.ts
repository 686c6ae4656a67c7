import { apply } from '../../plan/apply.ts';
import { setMoving } from '../../plan/edits.ts';
import { emptyPlan } from '../../plan/new.ts';
import { addPart, removeItems, setSettings } from '../../plan/partEdits.ts';
import type { NewPart } from '../../plan/rows.ts';
import type { Edit, End, Id, Moving, Plan, Value, Vehicle, Wire, Zone } from '../../plan/types.ts';
import { addWire, setWire, splitWire, type WirePatch } from '../../plan/wireEdits.ts';

/** The zones of every example plan. */
export const ZONE = { bay: 'z1', dash: 'z2', seat: 'z3', desk: 'z4' } as const;
export type ZoneName = keyof typeof ZONE;

/**
 * A plan under construction that calls its parts and wires by short names. Every method changes the plan in place of
 * the last and hands itself back, so that an example reads as one sentence: `bench().set('fuse', { ratingA: 15 }).plan`.
 */
export class Bench {
  plan: Plan;
  private readonly parts = new Map<string, Id>();
  private readonly wires = new Map<string, Id>();

  constructor(title: string, vehicle: Partial<Vehicle> = {}) {
    this.plan = emptyPlan(title, { centralClamping: 'yes', batteryAh: 90, parkedA: 0.035, ...vehicle }, `example-${title}`);
  }

  /** Id of a part by its short name. */
  id(name: string): Id {
    const id = this.parts.get(name);
    if (id === undefined) throw new Error(`no part "${name}" on the bench`);
    return id;
  }

  /** Is a part of that short name on the plan (still)? */
  has(name: string): boolean {
    const id = this.parts.get(name);
    return id !== undefined && this.plan.parts[id] !== undefined;
  }

  /** Id of a wire by its short name, else by its ends as they were drawn: `fuse.2>relay.30`. */
  wireId(name: string): Id {
    const id = this.wires.get(name);
    if (id === undefined) throw new Error(`no wire "${name}" on the bench`);
    return id;
  }

  /** A new part under a short name. */
  part(name: string, kind: string, zone: ZoneName, settings: Readonly<Record<string, Value>> = {}, more: Partial<NewPart> = {}): this {
    const n = this.parts.size;
    const added = addPart(this.plan, { kind, zone: ZONE[zone], x: 20 + (n % 4) * 160, y: 20 + Math.floor(n / 4) * 120, settings, name, ...more });
    this.parts.set(name, added.id);
    return this.take(added.edit);
  }

  /** A wire between two terminals, `fuse.2` to `relay.30`; it is called by `name`, or by its ends. */
  wire(from: string, to: string, extras: Partial<Omit<Wire, 'id' | 'from' | 'to'>> = {}, name = `${from}>${to}`): this {
    const added = addWire(this.plan, this.end(from), this.end(to), extras);
    this.wires.set(name, added.id);
    return this.take(added.edit);
  }

  /** Types settings of a part; `undefined` frees one. */
  set(name: string, settings: Readonly<Record<string, Value | undefined>>): this {
    return this.take(setSettings(this.plan, this.id(name), settings));
  }

  /** Types what a wire carries; `undefined` frees it. */
  wireSet(name: string, patch: WirePatch): this {
    return this.take(setWire(this.plan, this.wireId(name), patch));
  }

  /** Takes a part away with its wires. */
  without(...names: string[]): this {
    return this.take(
      removeItems(
        this.plan,
        names.map((n) => this.id(n)),
      ),
    );
  }

  /** Takes wires away. */
  cut(...names: string[]): this {
    return this.take(
      removeItems(
        this.plan,
        [],
        names.map((n) => this.wireId(n)),
      ),
    );
  }

  /** Cuts a new part into a wire; its pieces are called `name<` (towards the wire's start) and `name>`. */
  into(wire: string, name: string, kind: string, [inTerminal, outTerminal]: readonly [string, string], settings: Readonly<Record<string, Value>> = {}): this {
    const row = this.plan.wires[this.wireId(wire)]!;
    const zone = this.plan.parts[row.from.part]!.zone;
    const cut = splitWire(this.plan, row.id, { kind, zone, x: 300, y: 300, settings, name }, inTerminal, outTerminal);
    this.parts.set(name, cut.id);
    this.wires.set(`${name}<`, cut.wires[0]);
    this.wires.set(`${name}>`, cut.wires[1]);
    this.wires.delete(wire);
    return this.take(cut.edit);
  }

  vehicle(patch: Partial<Vehicle>): this {
    this.plan = { ...this.plan, vehicle: { ...this.plan.vehicle, ...patch } };
    return this;
  }

  zone(name: ZoneName, patch: Partial<Omit<Zone, 'id'>>): this {
    const id = ZONE[name];
    this.plan = { ...this.plan, zones: { ...this.plan.zones, [id]: { ...this.plan.zones[id]!, ...patch } } };
    return this;
  }

  /** What the run between two neighbouring zones passes over. */
  moving(a: ZoneName, b: ZoneName, moving: Moving): this {
    const run = Object.values(this.plan.runs).find((r) => r.a === ZONE[a] && r.b === ZONE[b]);
    if (!run) throw new Error(`no run from ${a} to ${b} on the bench`);
    return this.take(setMoving(this.plan, run.id, moving));
  }

  threshold(key: string, value: number): this {
    this.plan = { ...this.plan, thresholds: { ...this.plan.thresholds, [key]: value } };
    return this;
  }

  private end(at: string): End {
    const dot = at.indexOf('.');
    return { part: this.id(at.slice(0, dot)), terminal: at.slice(dot + 1) };
  }

  /** The short name of a part or a wire, or null. */
  nameOf(id: Id): string | null {
    for (const names of [this.parts, this.wires]) for (const [name, at] of names) if (at === id) return name;
    return null;
  }

  /** The id that a short name of a part or a wire stands for, or null. */
  idOf(name: string): Id | null {
    return this.parts.get(name) ?? this.wires.get(name) ?? null;
  }

  private take(edit: Edit): this {
    const applied = apply(this.plan, edit);
    if (!applied.ok) throw new Error(`${edit.label}: ${applied.reason}`);
    this.plan = applied.plan;
    return this;
  }
}
