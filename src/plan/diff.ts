import { sameRow } from './equal.ts';
import { compareIds } from './ids.ts';
import type { Id, Part, Plan, Run, Tables, Wire, Zone } from './types.ts';

/** One field that differs; `undefined` = absent, that is automatic or never said. */
export interface FieldDiff {
  /** `areaMm2`, or with a dot inside a record: `settings.ratingA`, `from.terminal`, `vehicle.batteryAh`. */
  readonly field: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** A row that stands in both plans under the same id and is not the same. */
export interface ChangedRow<T> {
  readonly id: Id;
  readonly before: T;
  readonly after: T;
  /** Never empty, by letters. */
  readonly fields: readonly FieldDiff[];
}

/** Rows by their ids, in the order in which they were made. */
export interface TableDiff<T> {
  readonly added: readonly T[];
  readonly removed: readonly T[];
  readonly changed: readonly ChangedRow<T>[];
}

export interface PlanDiff {
  readonly parts: TableDiff<Part>;
  readonly wires: TableDiff<Wire>;
  readonly zones: TableDiff<Zone>;
  readonly runs: TableDiff<Run>;
  /** Title, note, vehicle, thresholds, what was set aside, stage and ticks; of a revision what it keeps of them. */
  readonly head: readonly FieldDiff[];
}

/** What is compared: a whole plan, or its tables with what a revision keeps beside them. */
export type Comparable = Tables & Partial<Pick<Plan, HeadKey>>;

const HEAD_KEYS = ['title', 'note', 'vehicle', 'thresholds', 'setAside', 'stage', 'ticks'] as const satisfies readonly (keyof Plan)[];
type HeadKey = (typeof HEAD_KEYS)[number];

/** Fields that say where something stands on the drawing and nothing about what is in the vehicle. */
const DRAWN: ReadonlySet<string> = new Set(['x', 'y', 'turn', 'bends', 'order', 'width']);
/** Fields of the head on which figures rest: facts of the vehicle, and the plan's own limits. */
const RESTED_ON = /^(vehicle|thresholds)\./;
/** Words and ticks that go along with a thing and leave it what it is. */
const BESIDE: ReadonlySet<string> = new Set(['note', 'fitted', 'item']);

/**
 * What differs between two plans, row by row under the same id. Pure; takes values as they stand, so give it filled
 * plans to see automatic values that came out otherwise.
 */
export function diffPlans(before: Comparable, after: Comparable): PlanDiff {
  return {
    parts: tableDiff(before.parts, after.parts),
    wires: tableDiff(before.wires, after.wires),
    zones: tableDiff(before.zones, after.zones),
    runs: tableDiff(before.runs, after.runs),
    head: headDiff(before, after),
  };
}

/** Nothing at all differs. */
export function isSame(diff: PlanDiff): boolean {
  const tables = [diff.parts, diff.wires, diff.zones, diff.runs];
  return diff.head.length === 0 && tables.every((t) => t.added.length + t.removed.length + t.changed.length === 0);
}

/** The fields of a changed row that matter at the vehicle: without its place on the drawing, its note and its tick. */
export function madeFields(row: ChangedRow<unknown>): readonly FieldDiff[] {
  return row.fields.filter((f) => !DRAWN.has(f.field) && !BESIDE.has(f.field));
}

/** The difference without rows that were only moved on the drawing, noted on or ticked; of the head what figures rest on. */
export function madeDiff(diff: PlanDiff): PlanDiff {
  const made = <T>(table: TableDiff<T>): TableDiff<T> => ({ ...table, changed: table.changed.filter((row) => madeFields(row).length > 0) });
  return {
    parts: made(diff.parts),
    wires: made(diff.wires),
    zones: made(diff.zones),
    runs: made(diff.runs),
    head: diff.head.filter((f) => RESTED_ON.test(f.field)),
  };
}

function tableDiff<T extends { readonly id: Id }>(before: Readonly<Record<Id, T>>, after: Readonly<Record<Id, T>>): TableDiff<T> {
  const ids = [...new Set([...Object.keys(before), ...Object.keys(after)])].sort(compareIds);
  const added: T[] = [];
  const removed: T[] = [];
  const changed: ChangedRow<T>[] = [];
  for (const id of ids) {
    const was = own(before, id);
    const is = own(after, id);
    if (was === is) continue;
    if (was === undefined) added.push(is!);
    else if (is === undefined) removed.push(was);
    else {
      const fields = fieldDiffs(was, is);
      if (fields.length > 0) changed.push({ id, before: was, after: is, fields });
    }
  }
  return { added, removed, changed };
}

function own<T>(table: Readonly<Record<Id, T>>, id: Id): T | undefined {
  return Object.hasOwn(table, id) ? table[id] : undefined;
}

function headDiff(before: Comparable, after: Comparable): readonly FieldDiff[] {
  const whole = isWhole(before) && isWhole(after);
  const both = HEAD_KEYS.filter((key) => whole || (before[key] !== undefined && after[key] !== undefined));
  const pick = (plan: Comparable) => Object.fromEntries(both.map((key) => [key, plan[key]]));
  return fieldDiffs(pick(before), pick(after));
}

/** A plan has a title, a revision has none: what is absent there was not kept. */
function isWhole(plan: Comparable): boolean {
  return plan.title !== undefined;
}

function fieldDiffs(before: object, after: object, path = ''): FieldDiff[] {
  const left = before as Readonly<Record<string, unknown>>;
  const right = after as Readonly<Record<string, unknown>>;
  const keys = [...new Set([...Object.keys(left), ...Object.keys(right)])].sort();
  return keys.flatMap((key): FieldDiff[] => {
    const was = left[key];
    const is = right[key];
    if (sameRow(was, is)) return [];
    const field = path === '' ? key : `${path}.${key}`;
    return isRecord(was) && isRecord(is) ? fieldDiffs(was, is, field) : [{ field, before: was, after: is }];
  });
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
