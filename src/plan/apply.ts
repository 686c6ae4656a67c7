import { sameRow } from './equal.ts';
import { inOrder, serialOf } from './ids.ts';
import type { Change, Edit, Head, Id, Part, Plan, Revision, Run, Wire, Zone } from './types.ts';

export { sameRow } from './equal.ts';

export type Applied = { readonly ok: true; readonly plan: Plan } | { readonly ok: false; readonly reason: string };

interface Tables {
  readonly parts: Record<Id, Part>;
  readonly wires: Record<Id, Wire>;
  readonly zones: Record<Id, Zone>;
  readonly runs: Record<Id, Run>;
  readonly revisions: Record<Id, Revision>;
}
type TableName = keyof Tables;
const TABLES = ['parts', 'wires', 'zones', 'runs'] as const satisfies readonly TableName[];
const ONE: Readonly<Record<TableName, string>> = { parts: 'part', wires: 'wire', zones: 'zone', runs: 'run', revisions: 'revision' };

/** The plan's single-valued fields as one row. */
export function headOf(plan: Plan): Head {
  return {
    title: plan.title,
    note: plan.note,
    vehicle: plan.vehicle,
    thresholds: plan.thresholds,
    setAside: plan.setAside,
    ...(plan.stage === undefined ? {} : { stage: plan.stage }),
    ...(plan.ticks === undefined ? {} : { ticks: plan.ticks }),
    ...(plan.gone === undefined ? {} : { gone: plan.gone }),
    nextSerial: plan.nextSerial,
  };
}

/**
 * The plan after an edit. Refused, with a plain reason, when a `before` is not what the plan holds or when the result
 * would point at something that is not there. Tables that the edit does not touch keep their identity.
 */
export function apply(plan: Plan, edit: Edit): Applied {
  if (edit.changes.length === 0) return { ok: true, plan };
  const touched: Partial<Tables> = {};
  const table = <T extends TableName>(name: T): Tables[T] => {
    touched[name] ??= { ...plan[name] } as Tables[T];
    return touched[name] as Tables[T];
  };
  let head: Head | null = null;
  for (const change of edit.changes) {
    if (change.table === 'head') {
      if (!sameRow(head ?? headOf(plan), change.before)) return refuse('the plan’s title, vehicle or settings have changed since this edit was made');
      head = change.after;
      continue;
    }
    const rows = table(change.table) as Record<Id, unknown>;
    if (!sameRow(rows[change.id] ?? null, change.before)) {
      return refuse(`${ONE[change.table]} ${change.id} ${change.before === null ? 'is already there' : 'has changed since this edit was made'}`);
    }
    if (change.after === null) delete rows[change.id];
    else if (change.after.id !== change.id) return refuse(`${ONE[change.table]} ${change.id} would be stored under another id`);
    else rows[change.id] = change.after;
  }
  // Rows stand in the order of their ids, so that a plan never shows by which edits it came about.
  const ordered = Object.fromEntries(Object.entries(touched).map(([name, rows]) => [name, inOrder<unknown>(rows)])) as Partial<Tables>;
  const next = withoutEmpty({ ...(head ? withHead(plan, head) : plan), ...ordered });
  const reason = misfit(plan, next, edit);
  return reason === null ? { ok: true, plan: next } : refuse(reason);
}

/** A plan whose last revision was taken back is the plan that never had one. */
function withoutEmpty(plan: Plan): Plan {
  if (plan.revisions === undefined || Object.keys(plan.revisions).length > 0) return plan;
  const { revisions: _none, ...rest } = plan;
  return rest;
}

/** A field that the head leaves out is gone from the plan too. */
function withHead(plan: Plan, head: Head): Plan {
  const { stage: _stage, ticks: _ticks, gone: _gone, ...rest } = plan;
  return { ...rest, ...head };
}

/** The edit that takes the plan back. */
export function invert(edit: Edit): Edit {
  const changes = edit.changes.map((c) => ({ ...c, before: c.after, after: c.before }) as Change).reverse();
  return { ...edit, changes };
}

/** One edit that does what the first and then the second do: first `before`, last `after` of every row. */
export function merge(first: Edit, second: Edit): Edit {
  const rows = new Map<string, Change>();
  for (const change of [...first.changes, ...second.changes]) {
    const key = rowKey(change);
    const earlier = rows.get(key);
    rows.set(key, earlier ? ({ ...change, before: earlier.before } as Change) : change);
  }
  const changes = [...rows.values()].filter((c) => !sameRow(c.before, c.after));
  return { intent: second.intent, label: second.label, changes };
}

/**
 * Do two edits change exactly the same fields of the same rows? Then they may stand as one entry of undo. Place and
 * turn count as one field, so that nudging right and then down is one move.
 */
export function sameTarget(a: Edit, b: Edit): boolean {
  const fields = new Set(a.changes.flatMap(fieldsOf));
  const others = new Set(b.changes.flatMap(fieldsOf));
  return fields.size === others.size && [...fields].every((key) => others.has(key));
}

const PLACE: ReadonlySet<string> = new Set(['x', 'y', 'zone', 'turn']);

/** `parts:p3`, or `parts:p3.place`, `parts:p3.settings.ratingA` ... when the row stands before and after. */
function fieldsOf(change: Change): string[] {
  const row = rowKey(change);
  if (change.before === null || change.after === null) return [row];
  const before = change.before as unknown as Readonly<Record<string, unknown>>;
  const after = change.after as unknown as Readonly<Record<string, unknown>>;
  return differing(before, after).flatMap((key) => {
    if (PLACE.has(key)) return [`${row}.place`];
    const inner = [before[key], after[key]];
    if (!inner.every((v) => typeof v === 'object' && v !== null && !Array.isArray(v))) return [`${row}.${key}`];
    const [left, right] = inner as [Readonly<Record<string, unknown>>, Readonly<Record<string, unknown>>];
    return differing(left, right).map((sub) => `${row}.${key}.${sub}`);
  });
}

function differing(a: Readonly<Record<string, unknown>>, b: Readonly<Record<string, unknown>>): string[] {
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((key) => !sameRow(a[key], b[key]));
}

function rowKey(change: Change): string {
  return change.table === 'head' ? 'head' : `${change.table}:${change.id}`;
}

function refuse(reason: string): Applied {
  return { ok: false, reason };
}

/** Why the result does not hold together, or null. Looks only at what the edit can have broken. */
function misfit(before: Plan, after: Plan, edit: Edit): string | null {
  for (const change of edit.changes) {
    if (change.table === 'head' || change.after === null || change.before !== null) continue;
    const serial = serialOf(change.id);
    if (serial !== null && serial >= after.nextSerial) return `id ${change.id} was not taken from the plan’s numbering`;
  }
  const gone = TABLES.some((name) => after[name] !== before[name] && Object.keys(before[name]).some((id) => !Object.hasOwn(after[name], id)));
  const rows = <T>(name: TableName, all: Readonly<Record<Id, T>>): readonly T[] =>
    // A removed row can strand any other; otherwise only the rows just written can be wrong.
    gone ? Object.values(all) : edit.changes.flatMap((c) => (c.table === name && all[c.id] ? [all[c.id] as T] : []));
  return partMisfit(after, rows('parts', after.parts)) ?? wireMisfit(after, rows('wires', after.wires)) ?? runMisfit(after, rows('runs', after.runs));
}

function partMisfit(plan: Plan, parts: readonly Part[]): string | null {
  const lost = parts.filter((p) => !Object.hasOwn(plan.zones, p.zone));
  const first = lost[0];
  if (!first) return null;
  return lost.length === 1
    ? `${first.name ?? first.kind} still lies in that zone: move it first`
    : `${lost.length} parts still lie in that zone: move them first`;
}

function wireMisfit(plan: Plan, wires: readonly Wire[]): string | null {
  for (const wire of wires) {
    for (const end of [wire.from, wire.to]) {
      if (!Object.hasOwn(plan.parts, end.part)) return `wire ${wire.id} would end on a part that is not on the plan (${end.part})`;
    }
    if (wire.from.part === wire.to.part && wire.from.terminal === wire.to.terminal) return 'a wire cannot join a terminal to itself';
    const lost = wire.bends?.find((b) => b.zone !== undefined && !Object.hasOwn(plan.zones, b.zone));
    if (lost) return `a bend of wire ${wire.id} would lie in a zone that is not on the plan`;
  }
  return null;
}

function runMisfit(plan: Plan, runs: readonly Run[]): string | null {
  for (const run of runs) {
    if (!Object.hasOwn(plan.zones, run.a) || !Object.hasOwn(plan.zones, run.b)) return `run ${run.id} would end in a zone that is not on the plan`;
    if (run.a === run.b) return 'a run joins two different zones';
    if (!(run.lengthM > 0)) return 'a run needs a length above 0 m';
  }
  return null;
}
