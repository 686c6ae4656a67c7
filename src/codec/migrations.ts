import { CURRENT_VERSION } from './schema.ts';

type Raw = Readonly<Record<string, unknown>>;

/**
 * Steps from one format version to the next, by the version they start from. A step gets whatever stood in the file:
 * it must cope with any shape and leave what it does not understand for the schema to refuse.
 */
export const migrations: Readonly<Record<number, (raw: Raw) => Raw>> = {
  // The draft format: wires carried `size`, zones had no kind. A dash is the commonest place for a build.
  0: (raw) => ({
    ...raw,
    zones: eachRow(raw.zones, (zone) => ({ kind: 'dash', ...zone })),
    wires: eachRow(raw.wires, ({ size, ...wire }) => (size === undefined ? wire : { areaMm2: size, ...wire })),
  }),
};

/**
 * Brings an older plan up to the current version, one step at a time.
 * @returns the raw plan and one note when anything was done.
 */
export function migrated(raw: Raw, version: number): { readonly raw: Raw; readonly notes: readonly string[] } {
  let now = raw;
  for (let v = version; v < CURRENT_VERSION; v += 1) now = { ...(migrations[v]?.(now) ?? now), version: v + 1 };
  return { raw: now, notes: version < CURRENT_VERSION ? [`The plan was in format ${version} and has been brought up to ${CURRENT_VERSION}.`] : [] };
}

function eachRow(table: unknown, step: (row: Raw) => Raw): unknown {
  if (typeof table !== 'object' || table === null || Array.isArray(table)) return table;
  return Object.fromEntries(Object.entries(table).map(([id, row]) => [id, typeof row === 'object' && row !== null ? step(row as Raw) : row]));
}
