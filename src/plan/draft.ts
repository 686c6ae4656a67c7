import { headOf } from './apply.ts';
import { sameRow } from './equal.ts';
import { leftBy } from './numbers.ts';
import type { Change, Edit, Gone, GonePart, Head, Id, Part, Plan, Revision, Run, Wire, Zone } from './types.ts';

/**
 * Collects changes to a plan and turns them into one edit. Rows written twice become one change; rows that end as
 * they began leave none. New ids come from the plan's serial, which the edit moves on with it.
 */
export class Draft {
  private readonly parts = new Map<Id, Part | null>();
  private readonly wires = new Map<Id, Wire | null>();
  private readonly zones = new Map<Id, Zone | null>();
  private readonly runs = new Map<Id, Run | null>();
  private readonly revisions = new Map<Id, Revision | null>();
  private head: Head;
  readonly plan: Plan;

  constructor(plan: Plan) {
    this.plan = plan;
    this.head = headOf(plan);
  }

  newId(letter: 'p' | 'w' | 'z' | 'r'): Id {
    const serial = Math.max(this.head.nextSerial, this.plan.given?.serial ?? 0);
    this.head = { ...this.head, nextSerial: serial + 1 };
    return `${letter}${serial}`;
  }

  part(id: Id): Part | undefined {
    return this.parts.has(id) ? (this.parts.get(id) ?? undefined) : this.plan.parts[id];
  }
  setPart(row: Part): void {
    this.parts.set(row.id, row);
  }
  removePart(id: Id): void {
    this.parts.set(id, null);
  }
  setWire(row: Wire): void {
    this.wires.set(row.id, row);
  }
  removeWire(id: Id): void {
    this.wires.set(id, null);
  }
  setZone(row: Zone): void {
    this.zones.set(row.id, row);
  }
  removeZone(id: Id): void {
    this.zones.set(id, null);
  }
  setRun(row: Run): void {
    this.runs.set(row.id, row);
  }
  removeRun(id: Id): void {
    this.runs.set(id, null);
  }
  setRevision(row: Revision): void {
    this.revisions.set(row.id, row);
  }
  /** A value of `undefined` takes an optional field away. */
  setHead(patch: { readonly [K in keyof Head]?: Head[K] | undefined }): void {
    this.head = patched<Head>(this.head, patch);
  }

  edit(intent: string, label: string): Edit {
    const before = headOf(this.plan);
    const all: readonly Change[] = [
      ...rows('zones', this.plan.zones, this.zones),
      ...rows('runs', this.plan.runs, this.runs),
      ...rows('parts', this.plan.parts, this.parts),
      ...rows('wires', this.plan.wires, this.wires),
      ...rows('revisions', this.plan.revisions ?? {}, this.revisions),
      { table: 'head', before, after: this.left() },
    ];
    return { intent, label, changes: all.filter((c) => !sameRow(c.before, c.after)) };
  }

  /** The head with what this edit removes: its numbers are not given again. */
  private left(): Head {
    const wires: Record<Id, number> = {};
    const parts: Record<Id, GonePart> = {};
    for (const [id, now] of this.wires) {
      const was = this.plan.wires[id];
      if (was?.owner === 'build' && now === null) wires[id] = was.number ?? 0;
    }
    for (const [id, now] of this.parts) {
      const was = this.plan.parts[id];
      if (was && now?.kind !== was.kind) parts[id] = leftBy(was);
    }
    if (Object.keys(wires).length + Object.keys(parts).length === 0) return this.head;
    const before: Gone = this.head.gone ?? { wires: {}, parts: {} };
    return { ...this.head, gone: { wires: { ...before.wires, ...wires }, parts: { ...before.parts, ...parts } } };
  }
}

function rows<T>(table: 'parts' | 'wires' | 'zones' | 'runs' | 'revisions', had: Readonly<Record<Id, T>>, now: ReadonlyMap<Id, T | null>): Change[] {
  return [...now].map(([id, after]) => ({ table, id, before: had[id] ?? null, after }) as unknown as Change);
}

/** A copy of `row` with the patch laid over it; a patch value of `undefined` removes the key (back to automatic). */
export function patched<T extends object>(row: T, patch: { readonly [K in keyof T]?: T[K] | undefined }): T {
  const next = { ...row } as Record<string, unknown>;
  for (const [key, value] of Object.entries(patch)) {
    if (value === undefined) delete next[key];
    else next[key] = value;
  }
  return next as T;
}
