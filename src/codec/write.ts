import { compareIds } from '../plan/ids.ts';
import type { End, Given, Gone, Part, Plan, Revision, Run, Tables, Vehicle, Was, Wire, Zone } from '../plan/types.ts';

/** Ending of a plan's file name. */
export const SUFFIX = '.plan.json';

/**
 * The text of a plan's file: keys in a fixed order, rows by id and one a line, so that two versions compare line by
 * line. Ends with a newline.
 */
export function writePlan(plan: Plan): string {
  const fields: readonly (readonly [string, string])[] = [
    ['format', one(plan.format)],
    ['version', one(plan.version)],
    ['id', one(plan.id)],
    ...(plan.alternative === undefined ? [] : [['alternative', one({ of: plan.alternative.of, letter: plan.alternative.letter })] as const]),
    ['title', one(plan.title)],
    ['note', one(plan.note)],
    ['vehicle', JSON.stringify(ordered(plan.vehicle, vehicleKeys), null, 2).replaceAll('\n', '\n  ')],
    ['zones', table(plan.zones, zoneKeys)],
    ['runs', table(plan.runs, runKeys)],
    ['parts', table(plan.parts, partKeys)],
    ['wires', table(plan.wires, wireKeys)],
    ['thresholds', lines(sorted(plan.thresholds))],
    ['setAside', lines(sorted(plan.setAside))],
    ...(plan.stage === undefined ? [] : [['stage', one(plan.stage)] as const]),
    ...(plan.ticks === undefined ? [] : [['ticks', lines(sorted(plan.ticks))] as const]),
    ...(plan.gone === undefined ? [] : [['gone', one(goneOf(plan.gone))] as const]),
    ...(plan.given === undefined ? [] : [['given', one(givenOf(plan.given))] as const]),
    ...(plan.revisions === undefined
      ? []
      : [
          [
            'revisions',
            lines(
              Object.values(plan.revisions)
                .sort((a, b) => a.number - b.number)
                .map((r) => [r.id, revisionOf(r)]),
            ),
          ] as const,
        ]),
    ['nextSerial', one(plan.nextSerial)],
  ];
  return `{\n${fields.map(([key, value]) => `  ${one(key)}: ${value}`).join(',\n')}\n}\n`;
}

const vehicleKeys = [
  'name',
  'systemV',
  'polarity',
  'batteryAh',
  'centralClamping',
  'dipLevel',
  'parkedA',
  'standingDays',
  'engineOffH',
  'batterySensor',
  'parkedC',
  'stopStart',
  'remoteStart',
  'electrified',
  'isolator',
  'supplyV',
] as const satisfies readonly (keyof Vehicle)[];
const zoneKeys = ['id', 'name', 'kind', 'order', 'width', 'maxC', 'minC', 'bag'] as const satisfies readonly (keyof Zone)[];
const runKeys = ['id', 'a', 'b', 'lengthM', 'moving'] as const satisfies readonly (keyof Run)[];
const partKeys = ['id', 'kind', 'owner', 'zone', 'x', 'y', 'turn', 'name', 'settings', 'fitted', 'note', 'item'] as const satisfies readonly (keyof Part)[];
const wireKeys = [
  'id',
  'owner',
  'from',
  'to',
  'number',
  'areaMm2',
  'colour',
  'stripe',
  'lengthM',
  'insulationC',
  'sleeved',
  'looped',
  'bends',
  'fitted',
  'note',
] as const satisfies readonly (keyof Wire)[];

const one = (value: unknown): string => JSON.stringify(value);

function table<T extends object>(rows: Readonly<Record<string, T>>, keys: readonly (keyof T & string)[]): string {
  const ids = Object.keys(rows).sort(compareIds);
  return lines(ids.map((id) => [id, ordered(rows[id] as T, keys)]));
}

function byId<T>(rows: Readonly<Record<string, T>>): (readonly [string, T])[] {
  return Object.keys(rows)
    .sort(compareIds)
    .map((id) => [id, rows[id] as T]);
}

function goneOf({ wires, parts }: Gone): unknown {
  return { wires: Object.fromEntries(byId(wires)), parts: Object.fromEntries(byId(parts).map(([id, { kind, item }]) => [id, { kind, item }])) };
}

/** Numbers stand in their order by themselves: they are whole. */
function givenOf({ wires, items, serial }: Given): unknown {
  return { wires, items: Object.fromEntries(sorted(items)), serial };
}

function revisionOf({ id, number, date, note, was }: Revision): unknown {
  return { id, number, date, note, ...(was ? { was: { ...tablesOf(was), ...factsOf(was) } } : {}) };
}

function factsOf({ vehicle, thresholds }: Was): object {
  return { ...(vehicle ? { vehicle: ordered(vehicle, vehicleKeys) } : {}), ...(thresholds ? { thresholds: Object.fromEntries(sorted(thresholds)) } : {}) };
}

function tablesOf({ zones, runs, parts, wires }: Tables): object {
  const rows = <T extends object>(all: Readonly<Record<string, T>>, keys: readonly (keyof T & string)[]) =>
    Object.fromEntries(byId(all).map(([id, row]) => [id, ordered(row, keys)]));
  return { zones: rows(zones, zoneKeys), runs: rows(runs, runKeys), parts: rows(parts, partKeys), wires: rows(wires, wireKeys) };
}

function lines(entries: readonly (readonly [string, unknown])[]): string {
  return entries.length === 0 ? '{}' : `{\n${entries.map(([key, value]) => `    ${one(key)}: ${one(value)}`).join(',\n')}\n  }`;
}

function ordered<T extends object>(row: T, keys: readonly (keyof T & string)[]): Readonly<Record<string, unknown>> {
  return Object.fromEntries(keys.filter((key) => row[key] !== undefined).map((key) => [key, tidy(key, row[key])]));
}

function tidy(key: string, value: unknown): unknown {
  if (key === 'settings' || key === 'supplyV') return Object.fromEntries(sorted(value as Part['settings']));
  if (key === 'from' || key === 'to') return { part: (value as End).part, terminal: (value as End).terminal };
  return value;
}

function sorted<T>(record: Readonly<Record<string, T>>): (readonly [string, T])[] {
  return Object.entries(record).sort(([a], [b]) => (a < b ? -1 : 1));
}
