import { settingsOf } from '../parts/definePart.ts';
import type { PartKind } from '../parts/types.ts';
import { serialOf } from '../plan/ids.ts';
import type { End, Part, Plan } from '../plan/types.ts';
import { type Problem, whereOf } from './problems.ts';

const TABLES = ['zones', 'runs', 'parts', 'wires'] as const;

/** What a well-shaped plan can still have wrong: rows under a wrong id, and rows that point at nothing. */
export function integrityProblems(plan: Plan, kinds: ReadonlyMap<string, PartKind>): Problem[] {
  const problems: Problem[] = [];
  const add = (path: readonly string[], what: string): void => {
    problems.push({ where: whereOf(path, plan), what });
  };
  for (const table of TABLES) {
    for (const [key, row] of Object.entries(plan[table])) if (row.id !== key) add([table, key, 'id'], `“${row.id}” stands under “${key}”`);
  }
  for (const zone of Object.values(plan.zones)) {
    if (zone.minC !== undefined && zone.maxC !== undefined && zone.minC > zone.maxC) {
      add(['zones', zone.id, 'minC'], `${zone.minC} °C is above the zone’s largest temperature, ${zone.maxC} °C`);
    }
  }
  for (const run of Object.values(plan.runs)) {
    for (const side of ['a', 'b'] as const) if (!Object.hasOwn(plan.zones, run[side])) add(['runs', run.id, side], `there is no zone “${run[side]}”`);
    if (run.a === run.b) add(['runs', run.id], 'a run joins two different zones');
  }
  for (const part of Object.values(plan.parts)) if (!Object.hasOwn(plan.zones, part.zone)) add(['parts', part.id, 'zone'], `there is no zone “${part.zone}”`);
  const terminals = new Map<Part, ReadonlySet<string>>();
  const endProblem = (end: End): string | null => {
    const part = Object.hasOwn(plan.parts, end.part) ? plan.parts[end.part] : undefined;
    if (!part) return `there is no part “${end.part}”`;
    let ids = terminals.get(part);
    if (!ids) {
      ids = terminalIds(part, kinds);
      terminals.set(part, ids);
    }
    return ids.has(end.terminal) ? null : `${end.part} (${part.kind}) has no terminal “${end.terminal}”; it has ${[...ids].join(', ')}`;
  };
  for (const wire of Object.values(plan.wires)) {
    for (const side of ['from', 'to'] as const) {
      const what = endProblem(wire[side]);
      if (what !== null) add(['wires', wire.id, side], what);
    }
    if (wire.from.part === wire.to.part && wire.from.terminal === wire.to.terminal) add(['wires', wire.id], 'a wire cannot join a terminal to itself');
    for (const bend of wire.bends ?? [])
      if (bend.zone !== undefined && !Object.hasOwn(plan.zones, bend.zone)) add(['wires', wire.id, 'bends'], `there is no zone “${bend.zone}”`);
  }
  for (const [key, revision] of Object.entries(plan.revisions ?? {})) {
    if (key !== `v${revision.number}` || revision.id !== key) add(['revisions', key, 'id'], `revision ${revision.number} stands under “${key}”`);
    for (const table of TABLES) {
      for (const [id, row] of Object.entries(revision.was?.[table] ?? {})) {
        if (row.id !== id) add(['revisions', key, 'was', table, id, 'id'], `“${row.id}” stands under “${id}”`);
      }
    }
  }
  return problems;
}

function terminalIds(part: Part, kinds: ReadonlyMap<string, PartKind>): ReadonlySet<string> {
  const kind = kinds.get(part.kind);
  return new Set(kind ? kind.terminals(settingsOf(kind, part.settings)).map((t) => t.id) : []);
}

/** Least `nextSerial` that gives no id of the plan a second time, nor one of its past. */
export function leastSerial(plan: Plan): number {
  const was = Object.values(plan.revisions ?? {}).flatMap((revision) => (revision.was ? TABLES.map((name) => revision.was![name]) : []));
  const gone = plan.gone ? [plan.gone.wires, plan.gone.parts] : [];
  const ids = [...TABLES.map((name) => plan[name]), ...was, ...gone].flatMap((table) => Object.keys(table));
  return Math.max(0, ...ids.map((id) => serialOf(id) ?? 0)) + 1;
}
